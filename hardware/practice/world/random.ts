/** Seeded randomness. Every noise of the world draws from a stream of its own, so that a second vessel never changes the first scale's noise. */
export interface Random {
  /** Uniform in [0, 1). */
  next(): number;
  between(low: number, high: number): number;
  /** Standard normal. */
  gauss(): number;
  /** Waiting time of a Poisson process with this mean. */
  wait(mean: number): number;
}

/** FNV-1a over the stream's name, started from the seed. */
const hash = (seed: number, name: string): number => {
  let h = (0x811c9dc5 ^ seed) >>> 0;
  for (let i = 0; i < name.length; i += 1) h = Math.imul(h ^ name.charCodeAt(i), 0x01000193) >>> 0;
  return h;
};

/** Doty-Humphrey's sfc32: small, fast, passes the usual batteries; far better than this bench needs. */
export const random = (seed: number, stream: string): Random => {
  let a = hash(seed, stream);
  let b = hash(seed, `${stream}/b`);
  let c = hash(seed, `${stream}/c`);
  let count = 1;
  const next = (): number => {
    const t = (((a + b) >>> 0) + count) >>> 0;
    count = (count + 1) >>> 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) >>> 0;
    c = ((c << 21) | (c >>> 11)) >>> 0;
    c = (c + t) >>> 0;
    return t / 4_294_967_296;
  };
  for (let i = 0; i < 12; i += 1) next();
  return {
    next,
    between: (low, high) => low + (high - low) * next(),
    gauss: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    wait: (mean) => -mean * Math.log(1 - next()),
  };
};
