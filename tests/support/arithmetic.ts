const UNITS = /(?:kJ|mg|mol|min|mm|cm³|°C|[gJK])(?:\/(?:mol|cm³|\([^)]*\)|g))?(?![a-z])/gi;

/** "25 % × 2000 g" as tokens: numbers, operators, brackets; units are left out, a percentage is a hundredth. */
const tokensOf = (text: string): readonly string[] =>
  text
    .replaceAll(/M\([^)]*\)/g, ' ')
    .replaceAll(UNITS, ' ')
    .replaceAll('π', String(Math.PI))
    .replaceAll('×', '*')
    .replaceAll('÷', '/')
    .replaceAll('−', '-')
    .replaceAll('²', '^')
    .replaceAll(/(\d(?:\.\d+)?)\s*%/g, '$1 * 0.01')
    .replaceAll('[', '(')
    .replaceAll(']', ')')
    .match(/\d+(?:\.\d+)?|[-+*/()^]/g) ?? [];

/** What a filled-in formula comes to by plain school arithmetic, up to its last "="; `NaN` where it is none. */
export const worthOf = (filled: string): number => {
  const text = filled.slice(0, Math.max(0, filled.lastIndexOf('=')));
  const tokens = tokensOf(text.split(';')[0] ?? '');
  let at = 0;
  const atom = (): number => {
    const token = tokens[at];
    at += 1;
    if (token === '-') return -atom();
    const value = token === '(' ? sum() : Number(token);
    if (token === '(') at += 1;
    if (tokens[at] !== '^') return value;
    at += 1;
    return value * value;
  };
  const product = (): number => {
    let value = atom();
    for (;;) {
      const token = tokens[at];
      if (token !== '*' && token !== '/') return value;
      at += 1;
      const next = atom();
      value = token === '*' ? value * next : value / next;
    }
  };
  const sum = (): number => {
    let value = product();
    for (;;) {
      const token = tokens[at];
      if (token !== '+' && token !== '-') return value;
      at += 1;
      value += token === '+' ? product() : -product();
    }
  };
  const value = tokens.length === 0 ? Number.NaN : sum();
  return at === tokens.length ? value : Number.NaN;
};
