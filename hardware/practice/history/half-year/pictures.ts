import { random } from '../../world/random';
import { CURE, FORMULAS } from './workshop';

/** A picture of the half-year: which formula's bar, on which day from cutting, and the drawing that a camera's bytes are made from. */
export interface Picture {
  readonly formula: string;
  readonly day: number;
  readonly svg: string;
}

type Colour = readonly [red: number, green: number, blue: number];

/** Of a bar when it was just cut, and long after: those with meadowsweet's vanillin darken. Invented, as the bars are. */
const SHADES: Readonly<Record<string, readonly [fresh: Colour, later: Colour]>> = {
  'alder-and-oat': [
    [226, 210, 172],
    [214, 196, 156],
  ],
  'meadow-rain': [
    [236, 228, 206],
    [188, 152, 104],
  ],
  slate: [
    [92, 96, 101],
    [104, 108, 113],
  ],
  'heather-hearth': [
    [224, 205, 196],
    [156, 112, 84],
  ],
  'birch-brook': [
    [206, 214, 190],
    [214, 219, 201],
  ],
};

/** Days in which most of the darkening is over. Invented. */
const DARKENS = 4;

const shade = ([fresh, later]: readonly [Colour, Colour], day: number, lighter = 0): string => {
  const part = 1 - Math.exp(-day / DARKENS);
  const mixed = fresh.map((from, at) => Math.min(255, Math.round(from + part * ((later[at] ?? from) - from) + lighter)));
  return `rgb(${mixed.join(',')})`;
};

const [WIDTH, HEIGHT] = [600, 396] as const;
const [LEFT, TOP, RIGHT, BOTTOM] = [96, 58, 504, 338] as const;

/** Grains on the face of a bar: the same bar every day, so the same grains. */
const grains = (formula: string): string => {
  const where = random(7, `picture/${formula}`);
  return Array.from({ length: 60 }, () => {
    const [x, y, r] = [where.between(LEFT + 12, RIGHT - 12), where.between(TOP + 12, BOTTOM - 12), where.between(1, 3.4)];
    return `<circle cx="${x.toFixed(1)}" cy="${y.toFixed(1)}" r="${r.toFixed(1)}"/>`;
  }).join('');
};

/** Letters as strokes in a square of 1: a picture that needs no face of the machine it is made on. */
const STROKES: Readonly<Record<string, string>> = {
  P: 'M0 1V0H.6V.5H0',
  R: 'M0 1V0H.6V.5H0M.3 .5L.6 1',
  A: 'M0 1L.3 0L.6 1M.12 .62H.48',
  C: 'M.6 0H0V1H.6',
  T: 'M0 0H.6M.3 0V1',
  I: 'M.3 0V1',
  E: 'M.6 0H0V1H.6M0 .5H.5',
};
const LETTER = 22;
const practiceWord = Array.from(
  'PRACTICE',
  (letter, at) => `<path transform="translate(${at * 0.95} 0)" d="${STROKES[letter] ?? ''}"/>`,
).join('');

/** No hand holds a camera twice alike: some pixels off, another day's light. */
const heldOn = (formula: string, day: number): { readonly move: string; readonly light: number } => {
  const hand = random(day, `hand/${formula}`);
  return { move: `translate(${hand.between(-5, 5).toFixed(1)} ${hand.between(-4, 4).toFixed(1)})`, light: hand.between(-4, 4) };
};

const drawn = (formula: string, day: number): string => {
  const { move, light } = heldOn(formula, day);
  const shades = SHADES[formula] ?? [
    [220, 205, 180],
    [190, 165, 130],
  ];
  const face = `x="${LEFT}" y="${TOP}" width="${RIGHT - LEFT}" height="${BOTTOM - TOP}" rx="12"`;
  const waves = [0.28, 0.5, 0.72].map((part, at) => {
    const y = TOP + part * (BOTTOM - TOP);
    return `<path d="M${LEFT + 1} ${y}C${LEFT + 110} ${y - 60 + 20 * at} ${LEFT + 190} ${y + 70 - 15 * at} ${RIGHT - 1} ${y - 14}"/>`;
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${HEIGHT}">
<rect width="100%" height="100%" fill="#b9b4aa"/><rect y="300" width="100%" height="96" fill="#a39c90"/>
<g transform="${move}"><rect x="${LEFT + 8}" y="${TOP + 12}" width="${RIGHT - LEFT}" height="${BOTTOM - TOP}" rx="14" fill="#000" opacity=".22"/>
<rect ${face} fill="${shade(shades, day, light)}"/>
<g fill="none" stroke="${shade(shades, day, light + 22)}" stroke-width="13">${waves.join('')}</g>
<g fill="#3c2f22" opacity=".3">${grains(formula)}</g>
<rect ${face} fill="none" stroke="#000" stroke-opacity=".25" stroke-width="2"/></g>
<g transform="translate(${(WIDTH - LETTER * 7.25) / 2} 360) scale(${LETTER})" fill="none" stroke="#2b2620" stroke-width=".11">${practiceWord}</g>
</svg>`;
};

/** Every picture there is of the half-year's bars: a cut bar of each formula on each day it is photographed, marked as practice. */
export const PICTURES: readonly Picture[] = FORMULAS.flatMap(({ id }) =>
  CURE.photos.map((day): Picture => ({ formula: id, day, svg: drawn(id, day) })),
);

/** Hashes of pictures that are kept, by formula and day from cutting. */
export type KeptPictures = ReadonlyMap<string, string>;

export const pictureKey = ({ formula, day }: Pick<Picture, 'formula' | 'day'>): string => `${formula}/${day}`;
