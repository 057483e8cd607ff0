import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

/** Relative luminance and contrast: WCAG 2.2, definitions; AA 4.5:1 and AAA 7:1 for text (1.4.3, 1.4.6), 3:1 for edges of controls (1.4.11). */
const channel = (value: number): number => {
  const share = value / 255;
  return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
};
const luminance = (hex: string): number => {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => channel(Number.parseInt(hex.slice(at, at + 2), 16)));
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
};
const contrast = (a: string, b: string): number => {
  const [bright = 0, dark = 0] = [luminance(a), luminance(b)].toSorted((x, y) => y - x);
  return (bright + 0.05) / (dark + 0.05);
};

const css = readFileSync('app/_ui/tokens.css', 'utf8');
const coloursOf = (light: string): ReadonlyMap<string, string> => {
  const found = new Map<string, string>();
  for (const [, block = ''] of css.matchAll(new RegExp(`\\[data-light='${light}'\\] \\{([^}]*)\\}`, 'g')))
    for (const [, name = '', colour = ''] of block.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6})/g)) found.set(name, colour);
  return found;
};
const pick = (colours: ReadonlyMap<string, string>, name: string): string => {
  const colour = colours.get(name);
  if (colour === undefined) throw new Error(`no token --${name}`);
  return colour;
};

describe.each(['paper', 'bench'])('%s light', (light) => {
  const colours = coloursOf(light);
  const text = ['ink', 'ink-dim', 'accent', 'over', 'within', 'short', 'lye', 'oils'];

  it.each(text.flatMap((ink) => ['ground', 'sheet'].map((ground) => [ink, ground] as const)))('%s on %s reads (AA)', (ink, ground) => {
    expect(contrast(pick(colours, ink), pick(colours, ground))).toBeGreaterThanOrEqual(4.5);
  });

  it('draws the edge of what can be pressed (3:1)', () => {
    expect(contrast(pick(colours, 'edge'), pick(colours, 'ground'))).toBeGreaterThanOrEqual(3);
  });
});

describe('the bench number', () => {
  const colours = coloursOf('bench');
  it.each([
    ['ink', 'ground'],
    ['plate-ink', 'plate-over'],
    ['plate-ink', 'plate-calm'],
    ['plate-ink', 'plate-held'],
  ])('%s on %s reads (AAA)', (ink, ground) => {
    expect(contrast(pick(colours, ink), pick(colours, ground))).toBeGreaterThanOrEqual(7);
  });
});

it('knows black on white', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5);
});
