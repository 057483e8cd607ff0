import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';

const all = readdirSync('app', { recursive: true, encoding: 'utf8' });
/** Where raw values live, and what next/font writes by itself. */
const TOKENS = '_ui/tokens.css';
const sheets = all.filter((file) => file.endsWith('.css') && file !== TOKENS);
const read = (file: string): string => readFileSync(join('app', file), 'utf8');
const withoutComments = (css: string): string => css.replaceAll(/\/\*[\s\S]*?\*\//g, '');
const COLOUR = /#[0-9a-f]{3,8}\b|rgba?\(|hsla?\(/gi;

const bytes = (of: (file: string) => boolean): number => sheets.filter(of).reduce((sum, file) => sum + Buffer.byteLength(read(file)), 0);
const isBench = (file: string): boolean => /^(?:bench|_charts)\//.test(file);
/** The ground of both lights, and what is held on both. */
const isShared = (file: string): boolean => ['_ui/base.css', '_ui/press.module.css'].includes(file);

/** The shared sheets of the pages on paper, and the own one of a room. */
const SHARED = ['_ui/paper.module.css', '_ui/table.module.css', '_ui/drawing.module.css', '_ui/form.module.css'];
const ROOMS: readonly string[] = sheets.filter((file) => /^(?!_|bench\/).*\.module\.css$/.test(file));
const namesIn = (file: string): readonly string[] =>
  [...withoutComments(read(file)).matchAll(/\.([a-z][\w-]*)/gi)].map(([, name]) => name ?? '');
const asked = (file: string): readonly string[] =>
  [...read(file).matchAll(/\bon\(([^()]*)\)/g)].flatMap(([, inside]) =>
    [...(inside ?? '').matchAll(/'([^']*)'/g)].flatMap(([, names]) => (names ?? '').split(' ')),
  );

const ownOf = (file: string): readonly string[] => ROOMS.filter((sheet) => file.startsWith(`${dirname(sheet)}/`));

describe('raw colours and pixels live in the tokens', () => {
  it.each(sheets)('%s has none', (file) => {
    const css = withoutComments(read(file)).replaceAll(/@media[^{]*/g, '');
    expect(css.match(COLOUR)).toBeNull();
    expect(css.match(/\b(?!0px)\d*\.?\d+px\b/g)).toBeNull();
  });

  it('no page sets a colour beside them', () => {
    const coloured = all.filter(
      (file) => file.endsWith('.tsx') && /(?:fill|stroke|color)[=:]\s*["'{]*(?:#[0-9a-f]{3,8}|rgb|hsl)/i.test(read(file)),
    );
    expect(coloured).toEqual([]);
  });
});

describe('how much there is of it', () => {
  // Every sheet counts but the tokens; see DEVELOPERS.md, "Style sheets".
  it.each([
    ['the bench', (file: string) => isBench(file) || isShared(file), 25_000],
    ['paper', (file: string) => !isBench(file), 20_000],
  ])('%s loads less than its limit', (_light, of, limit) => {
    expect(bytes(of)).toBeLessThan(limit);
  });

  it('no sheet is global but the ground: what is in one page cannot change another', () => {
    expect(sheets.filter((file) => !file.endsWith('.module.css'))).toEqual(['_ui/base.css']);
  });
});

describe('class names', () => {
  const pages = all.filter((file) => file.endsWith('.tsx') && asked(file).length > 0);

  it.each(pages)('%s asks only for those that its sheets have', (file) => {
    const has = new Set([...SHARED, ...ownOf(file)].flatMap(namesIn));
    expect(asked(file).filter((name) => !has.has(name))).toEqual([]);
  });

  it('every name in a sheet is asked for', () => {
    const used = new Set(pages.flatMap(asked));
    const unused = [...SHARED, ...ROOMS].flatMap((sheet) => namesIn(sheet).filter((name) => !used.has(name)));
    expect([...new Set(unused)]).toEqual([]);
  });
});
