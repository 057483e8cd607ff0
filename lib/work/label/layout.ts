import { CAPITAL, feetOf, GLUE, glued, LEADING, MARGIN } from './foot';
import type { Foot } from './foot';
import { linesAlong, linesIn, widthIn } from './lines-in';
import { INGREDIENT_HEIGHT } from './net-statement';
import type { LabelSize, LabelText, Placed } from './placed';

export interface LabelLayout extends LabelSize {
  readonly placed: readonly Placed[];
  /** Everything has room at letters that can be read; else nothing of it is drawn but that it has none. */
  readonly fits: boolean;
  /** Height of a capital in the list of ingredients, mm. */
  readonly letters: number;
  /** It is at least what 21 CFR 701.3(b) asks. */
  readonly lettersForUs: boolean;
  /** The net content stands as low as 21 CFR 701.13 asks, or the front is so small that it need not. */
  readonly netLow: boolean;
}

/** Ems, mm: a long title is set smaller before it takes a third line. */
const TITLE = { largest: 4.6, least: 2.8, lines: 2 } as const;
const PURPOSE = 2.6;
/** Em of running text, mm: as large as there is room for. */
const [LARGEST, LEAST, STEP] = [2.8, 1.9, 0.1] as const;
const GAP = 0.8;

const lower = (em: number): number => Math.round((em - STEP) / STEP) * STEP;

const longest = (text: string, em: number): number => Math.max(0, ...text.split(' ').map((word) => widthIn(word, em)));

const titleLines = (title: string, inner: number): { readonly em: number; readonly lines: readonly string[] } => {
  for (let em: number = TITLE.largest; ; em = lower(em)) {
    const lines = linesIn(title, em, inner);
    if (em <= TITLE.least + 1e-9 || (lines.length <= TITLE.lines && longest(title, em) <= inner)) return { em, lines };
  }
};

/** Title and purpose at the top, and where they end. */
const headOf = ({ title, purpose }: LabelText, inner: number): { readonly placed: readonly Placed[]; readonly end: number } => {
  const placed: Placed[] = [];
  let y = MARGIN;
  const put = (part: 'title' | 'purpose', lines: readonly string[], size: number): void => {
    for (const text of lines) {
      y += size * LEADING;
      placed.push({ kind: 'text', part, of: 0, x: MARGIN, y: y - size * (LEADING - 1), size, strong: part === 'title', text });
    }
  };
  const { em, lines } = titleLines(title, inner);
  put('title', lines, em);
  if (purpose !== null) put('purpose', linesIn(purpose, PURPOSE, inner), PURPOSE);
  return { placed, end: y + GAP };
};

interface Body {
  readonly placed: readonly Placed[];
  readonly em: number;
  readonly fits: boolean;
}

/** Running text from `top`, as large as it has room for beside and above a foot. */
const bodyOf = (paragraphs: readonly string[], top: number, inner: number, foot: Foot): Body => {
  for (let em: number = LARGEST; ; em = lower(em)) {
    const body = setIn(paragraphs.map(glued), top, inner, foot, em);
    if (body.fits || em <= LEAST + 1e-9) return body;
  }
};

const setIn = (paragraphs: readonly string[], top: number, inner: number, { widthAt, floor }: Foot, em: number): Body => {
  const placed: Placed[] = [];
  let [y, narrowest] = [top, inner];
  for (const [of, paragraph] of paragraphs.entries()) {
    const from = y;
    const below = (line: number): number => from + (line + 1) * em * LEADING;
    for (const [line, text] of linesAlong(paragraph, em, (at) => widthAt(below(at))).entries()) {
      y = below(line);
      narrowest = Math.min(narrowest, widthAt(y));
      const at = y - em * (LEADING - 1);
      placed.push({ kind: 'text', part: 'text', of, x: MARGIN, y: at, size: em, strong: false, text: text.replaceAll(GLUE, ' ') });
    }
    y += GAP / 2;
  }
  // A word is cut only where no line of the label is as long as it, in the smallest letters either.
  const words = paragraphs.flatMap((paragraph) => paragraph.split(' '));
  const cut = words.some((word) => widthIn(word, em) > narrowest && widthIn(word, LEAST) <= inner);
  return { placed, em, fits: !cut && y - GAP / 2 <= floor + 1e-9 };
};

/** Everything of a label placed in its size, the net content in the lowest part of its front; of several ways the one with the largest letters. */
export const layLabel = (text: LabelText, { width, height }: LabelSize): LabelLayout => {
  const inner = width - 2 * MARGIN;
  const head = headOf(text, inner);
  const feet = feetOf(text, { width, height });
  const among = (paragraphs: readonly string[]): (Body & { readonly foot: Foot }) | null => {
    const bodies = feet.map((foot) => ({ ...bodyOf(paragraphs, head.end, inner, foot), foot })).filter(({ fits }) => fits);
    return bodies.toSorted((a, b) => b.em - a.em)[0] ?? null;
  };
  const best = among(text.paragraphs) ?? among(runOn(text.paragraphs));
  const letters = (best?.em ?? LEAST) * CAPITAL;
  const lettersForUs = letters >= INGREDIENT_HEIGHT.value - 1e-9;
  const told = { width, height, letters, lettersForUs };
  if (best === null) return { ...told, placed: refusal(text, inner, height), fits: false, netLow: true };
  return { ...told, placed: [...head.placed, ...best.placed, ...best.foot.placed], fits: true, netLow: isLow(best.foot, width, height) };
};

/** Of a front so large the net content stands in its lowest part only (21 CFR 701.13, from memory). */
const LOW = { share: 0.3, from: 5 * 25.4 ** 2 } as const;

const isLow = ({ placed }: Foot, width: number, height: number): boolean =>
  width * height <= LOW.from ||
  placed.every((one) => one.kind !== 'text' || one.part !== 'net' || one.y - one.size * CAPITAL >= (1 - LOW.share) * height - 1e-9);

/** Where room is short only the ingredients stand for themselves. */
const runOn = ([first, ...rest]: readonly string[]): readonly string[] => [
  ...(first === undefined ? [] : [first]),
  ...(rest.length === 0 ? [] : [rest.join(' · ')]),
];

/** As much as has room of why nothing is drawn. */
const refusal = ({ noRoom }: LabelText, inner: number, height: number): readonly Placed[] =>
  linesIn(noRoom, PURPOSE, inner)
    .map((text, at): Placed => {
      const y = MARGIN + (at + 1) * PURPOSE * LEADING;
      return { kind: 'text', part: 'text', of: 0, x: MARGIN, y, size: PURPOSE, strong: true, text };
    })
    .filter(({ y }) => y <= height - 1);

/** A label can be so high at most, mm. */
const HIGHEST = 280;

/** The least height, whole mm, at which everything has room in this width; `null`: it has none however high. */
export const heightFor = (text: LabelText, { width, height }: LabelSize): number | null => {
  let [low, high] = [height, HIGHEST];
  if (!layLabel(text, { width, height: high }).fits) return null;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (layLabel(text, { width, height: middle }).fits) high = middle;
    else low = middle + 1;
  }
  return high;
};
