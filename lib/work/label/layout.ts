import { customaryHeight, ESTIMATED_SIGN, INGREDIENT_HEIGHT, metricHeight } from './net-statement';
import type { Milligrams } from '#lib/units/mass';
import { linesAlong, linesIn, widthIn } from './lines-in';

/** What stands on a label, in the order it is read. Texts are whole; where they break is the layout's. */
export interface LabelText {
  readonly title: string;
  readonly purpose: string | null;
  /** The net content, and how much it is; `null`: not known. */
  readonly net: { readonly metric: string; readonly customary: string; readonly mass: Milligrams; readonly estimated: boolean } | null;
  /** Months after opening; `null`: nothing of them is said. */
  readonly openedMonths: number | null;
  /** Paragraphs: ingredients first, then cautions, durability, batch, responsible person. */
  readonly paragraphs: readonly string[];
}

/** mm. */
export interface LabelSize {
  readonly width: number;
  readonly height: number;
}

/** mm from the top left; text by its baseline, `size` an em. */
export type Placed =
  | {
      readonly kind: 'text';
      readonly x: number;
      readonly y: number;
      readonly size: number;
      readonly strong: boolean;
      readonly text: string;
    }
  | { readonly kind: 'sign'; readonly sign: 'estimated' | 'opened'; readonly x: number; readonly y: number; readonly side: number }
  | { readonly kind: 'code'; readonly x: number; readonly y: number; readonly side: number };

export interface LabelLayout extends LabelSize {
  readonly placed: readonly Placed[];
  /** Everything has room at letters that can be read. */
  readonly fits: boolean;
  /** Height of a capital in the list of ingredients, mm. */
  readonly letters: number;
  /** It is at least what 21 CFR 701.3(b) asks. */
  readonly lettersForUs: boolean;
}

const MARGIN = 3;
const CODE = 14;
const JAR = 10;
/** Height of a capital and of a figure of the face, as a share of its em (Atkinson Hyperlegible Next, measured on its outlines). */
const CAPITAL = 0.66;
const LEADING = 1.18;
const TITLE = 4.6;
const PURPOSE = 2.6;
/** Em of running text, mm: as large as there is room for. */
const [LARGEST, LEAST, STEP] = [2.8, 1.9, 0.1] as const;
const GAP = 0.8;

/** Everything of a label placed in its size, the code of its batch at the bottom right, the net content in the lowest part of its front. */
export const layLabel = (text: LabelText, { width, height }: LabelSize): LabelLayout => {
  const inner = width - 2 * MARGIN;
  const placed: Placed[] = [];
  let y = MARGIN;
  const put = (line: string, size: number, strong: boolean): void => {
    y += size * LEADING;
    placed.push({ kind: 'text', x: MARGIN, y: y - size * (LEADING - 1), size, strong, text: line });
  };
  for (const line of linesIn(text.title, TITLE, inner)) put(line, TITLE, true);
  if (text.purpose !== null) for (const line of linesIn(text.purpose, PURPOSE, inner)) put(line, PURPOSE, false);
  y += GAP;
  const bottom = height - MARGIN;
  const jar = text.openedMonths === null ? 0 : JAR + 2;
  const beside = inner - CODE - 2 - jar;
  const netSize = text.net === null ? 0 : netEm(text.net.mass, width * height);
  const netLines = text.net === null ? [] : [text.net.metric, text.net.customary].flatMap((one) => linesIn(one, netSize, beside));
  const netHeight = netLines.length * netSize * LEADING;
  const codeTop = bottom - CODE;
  const netTop = bottom - netHeight;
  const { em, rows, end } = fitted(text.paragraphs, y, inner, (at) => (at > codeTop - 1 ? beside : inner), netTop - 1);
  for (const row of rows) placed.push({ kind: 'text', x: MARGIN, y: row.y, size: em, strong: false, text: row.text });
  y = netTop;
  if (text.net?.estimated === true) {
    const side = Math.max(ESTIMATED_SIGN.value, netSize * CAPITAL);
    placed.push({ kind: 'sign', sign: 'estimated', x: MARGIN + widthIn(text.net.metric, netSize) + 1.5, y: y + netSize - side, side });
  }
  for (const line of netLines) put(line, netSize, true);
  if (text.openedMonths !== null) placed.push(...jarOf(text.openedMonths, width - MARGIN - CODE - jar, bottom - JAR));
  placed.push({ kind: 'code', x: width - MARGIN - CODE, y: codeTop, side: CODE });
  const letters = em * CAPITAL;
  return { width, height, placed, fits: end <= netTop - 1 + 1e-9, letters, lettersForUs: letters >= INGREDIENT_HEIGHT.value - 1e-9 };
};

/** The open jar with its months inside. */
const jarOf = (months: number, x: number, y: number): readonly Placed[] => {
  const [inside, size] = [`${months}M`, JAR * 0.34];
  return [
    { kind: 'sign', sign: 'opened', x, y, side: JAR },
    { kind: 'text', x: x + (JAR - widthIn(inside, size)) / 2, y: y + JAR * 0.82, size, strong: true, text: inside },
  ];
};

/** Figures as high as both rules ask, and never so small that nobody reads them. */
const netEm = (net: Milligrams, front: number): number => Math.max(metricHeight(net).value, customaryHeight(front).value, 2) / CAPITAL;

interface Row {
  readonly y: number;
  readonly text: string;
}

/** Running text from `top`, as large as it has room for above `floor`; at the least size where it has none. */
const fitted = (
  paragraphs: readonly string[],
  top: number,
  inner: number,
  widthAt: (y: number) => number,
  floor: number,
): { readonly em: number; readonly rows: readonly Row[]; readonly end: number } => {
  for (let em: number = LARGEST; ; em = Math.round((em - STEP) / STEP) * STEP) {
    const set = rowsOf(paragraphs, top, inner, widthAt, em);
    if (set.end <= floor || em <= LEAST + 1e-9) return { em, ...set };
  }
};

const rowsOf = (
  paragraphs: readonly string[],
  top: number,
  inner: number,
  widthAt: (y: number) => number,
  em: number,
): { readonly rows: readonly Row[]; readonly end: number } => {
  const rows: Row[] = [];
  let y = top;
  for (const paragraph of paragraphs) {
    const from = y;
    const below = (line: number): number => from + (line + 1) * em * LEADING;
    for (const [line, text] of linesAlong(paragraph, em, (at) => Math.min(inner, widthAt(below(at)))).entries()) {
      y = below(line);
      rows.push({ y: y - em * (LEADING - 1), text });
    }
    y += GAP / 2;
  }
  return { rows, end: y };
};
