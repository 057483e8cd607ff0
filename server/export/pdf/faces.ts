import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/** Weights in use: running text, measured figures and heads, the title. */
export type Weight = 'plain' | 'strong' | 'light';

const NUMBER: Readonly<Record<Weight, number>> = { plain: 400, strong: 700, light: 300 };

/** Atkinson Hyperlegible Next (Braille Institute, SIL Open Font Licence), by what its two files hold. */
export type Script = 'latin' | 'latin-ext';

export interface Face {
  readonly name: string;
  readonly bytes: Uint8Array;
}

const require = createRequire(import.meta.url);
const read = new Map<string, Face>();

/** A file of the face, read once. Throws when the package is not installed, which an installed program never meets. */
export const faceOf = (script: Script, weight: Weight): Face => {
  const name = `${script}-${NUMBER[weight]}`;
  const known = read.get(name);
  if (known !== undefined) return known;
  const path = require.resolve(`@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-${name}-normal.woff`);
  const face = { name, bytes: readFileSync(path) };
  read.set(name, face);
  return face;
};
