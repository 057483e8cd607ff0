/** Seeded random numbers (sfc32, public domain): the same seed gives the same lines. */
export interface Random {
  /** 0 ≤ x < 1. */
  unit(): number;
  between(low: number, high: number): number;
  /** Evenly spread over orders of magnitude. */
  logBetween(low: number, high: number): number;
  gauss(): number;
  chance(probability: number): boolean;
  pick<T>(items: readonly [T, ...T[]]): T;
}

export const createRandom = (seed: number, stream: number): Random => {
  let a = seed | 0;
  let b = stream | 0;
  let c = 0x9e3779b9 | 0;
  let d = 1;
  const unit = (): number => {
    const t = (((a + b) | 0) + d) | 0;
    d = (d + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (c << 21) | (c >>> 11);
    c = (c + t) | 0;
    return (t >>> 0) / 4294967296;
  };
  for (let index = 0; index < 16; index += 1) unit();
  let spare: number | null = null;
  const gauss = (): number => {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    const radius = Math.sqrt(-2 * Math.log(1 - unit()));
    const angle = 2 * Math.PI * unit();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
  const between = (low: number, high: number): number => low + (high - low) * unit();
  return {
    unit,
    between,
    logBetween: (low, high) => Math.exp(between(Math.log(low), Math.log(high))),
    gauss,
    chance: (probability) => unit() < probability,
    pick: (items) => items[Math.floor(unit() * items.length)] ?? items[0],
  };
};
