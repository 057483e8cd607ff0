import { sumOf } from '#lib/units/sum';
import { linesIn, widthIn } from './lines-in';
import { customaryHeight, ESTIMATED_SIGN, metricHeight } from './net-statement';
import type { LabelSize, LabelText, Part, Placed } from './placed';

/** mm. */
export const MARGIN = 3;
const CODE = 14;
const JAR = 10;
/** Between two things side by side, and between what stands one above the other. */
const [BESIDE, ABOVE] = [2, 1];
/** Height of a capital and of a figure of the face, as a share of its em (Atkinson Hyperlegible Next, measured on its outlines). */
export const CAPITAL = 0.66;
export const LEADING = 1.18;
/** A column of running text narrower than this is none. */
const NARROWEST = 24;

/** What stands low on a label (net content, signs, code), and the room it leaves for what is read above and beside it. */
export interface Foot {
  readonly placed: readonly Placed[];
  /** Room for a line that ends at `y`. */
  readonly widthAt: (y: number) => number;
  /** Running text ends above it. */
  readonly floor: number;
}

interface NetLine {
  readonly text: string;
  readonly em: number;
  /** 0: metric, 1: customary. */
  readonly of: number;
}

interface Net {
  readonly lines: readonly NetLine[];
  readonly height: number;
  readonly width: number;
  /** Side of the estimated sign; 0 without one. */
  readonly sign: number;
}

const SIGN_GAP = 1.5;
const LEAST_FIGURES = 2;

/** No-break space. */
export const GLUE = '\u00a0';
/** A number and its unit are one word: neither "120" nor "g" says anything alone; nor does half a colour index. */
export const glued = (text: string): string =>
  text.replaceAll(/(\d) (g|kg|oz|lb)\b/g, `$1${GLUE}$2`).replaceAll(/\b(?:Net Wt|CI \d{5})\b/g, (all) => all.replace(' ', GLUE));

/** Lines in a width without a word that is cut; `null` where one has no room. */
const wholeLines = (text: string, em: number, of: number, width: number): readonly NetLine[] | null => {
  const whole = glued(text);
  if (whole.split(' ').some((word) => widthIn(word, em) > width)) return null;
  return linesIn(whole, em, width).map((line) => ({ text: line, em, of }));
};

/** Figures as high as both rules ask, and never so small that nobody reads them. */
const netIn = ({ net }: LabelText, { width, height }: LabelSize, room: number): Net | null => {
  if (net === null) return { lines: [], height: 0, width: 0, sign: 0 };
  const high = Math.max(customaryHeight(width * height).value, LEAST_FIGURES);
  const metricHigh = Math.max(metricHeight(net.mass).value, high);
  const sign = net.estimated ? Math.max(ESTIMATED_SIGN.value, metricHigh) : 0;
  const beside = sign === 0 ? 0 : sign + SIGN_GAP;
  const metric = wholeLines(net.metric, metricHigh / CAPITAL, 0, room - beside);
  const customary = wholeLines(net.customary, high / CAPITAL, 1, room);
  if (metric === null || customary === null) return null;
  const lines = [...metric, ...customary];
  const wide = lines.map(({ text, em }, at) => widthIn(text, em) + (at === 0 ? beside : 0));
  return { lines, height: sumOf(lines, ({ em }) => em * LEADING), width: Math.max(...wide), sign };
};

const strong = (part: Part, of: number, x: number, y: number, size: number, text: string): Placed => ({
  kind: 'text',
  part,
  of,
  x,
  y,
  size,
  strong: true,
  text: text.replaceAll(GLUE, ' '),
});

const netAt = ({ lines, sign }: Net, x: number, top: number): readonly Placed[] => {
  let y = top;
  const placed: Placed[] = lines.map(({ text, em, of }) => {
    y += em * LEADING;
    return strong('net', of, x, y - em * (LEADING - 1), em, text);
  });
  const [first] = lines;
  if (sign === 0 || first === undefined) return placed;
  const beside = x + widthIn(first.text, first.em) + SIGN_GAP;
  return [{ kind: 'sign', sign: 'estimated', x: beside, y: top + first.em - sign, side: sign }, ...placed];
};

/** The open jar with its months inside, and the code at its right, both standing on `bottom`. */
const signsAt = ({ openedMonths }: LabelText, right: number, bottom: number): readonly Placed[] => {
  const code: Placed = { kind: 'code', x: right - CODE, y: bottom - CODE, side: CODE };
  if (openedMonths === null) return [code];
  const [inside, size] = [`${openedMonths}M`, JAR * 0.34];
  const [x, y] = [right - CODE - BESIDE - JAR, bottom - JAR];
  const letters = strong('sign', 0, x + (JAR - widthIn(inside, size)) / 2, y + JAR * 0.82, size, inside);
  return [{ kind: 'sign', sign: 'opened', x, y, side: JAR }, letters, code];
};

/** Every way the foot of a label can stand, the usual one first. */
export const feetOf = (text: LabelText, size: LabelSize): readonly Foot[] => {
  const { width, height } = size;
  const [inner, right, bottom] = [width - 2 * MARGIN, width - MARGIN, height - MARGIN];
  const signs = CODE + (text.openedMonths === null ? 0 : JAR + BESIDE);
  const rest = inner - signs - BESIDE;
  if (signs > inner) return [];
  const feet: Foot[] = [];
  const room = (top: number, beside: number) => (y: number) => (y > top - ABOVE ? beside : inner);
  // Net content at the left, signs at the right.
  const left = netIn(text, size, rest);
  if (left !== null) {
    const netTop = bottom - left.height;
    const placed = [...netAt(left, MARGIN, netTop), ...signsAt(text, right, bottom)];
    feet.push({ placed, widthAt: room(bottom - CODE, rest), floor: netTop - ABOVE });
  }
  // A narrow label: signs above the net content, which has the whole width.
  const below = netIn(text, size, inner);
  if (below !== null) {
    const netTop = bottom - below.height;
    const placed = [...signsAt(text, right, netTop - ABOVE), ...netAt(below, MARGIN, netTop)];
    const signsTop = netTop - ABOVE - CODE;
    const flows = rest >= NARROWEST;
    feet.push({ placed, widthAt: room(signsTop, flows ? rest : inner), floor: flows ? netTop - ABOVE : signsTop - ABOVE });
    // A low one: both at the right, and the text reaches down beside them.
    const beside = rest - below.width - BESIDE;
    if (beside >= NARROWEST) {
      const netLeft = right - signs - BESIDE - below.width;
      const low = [...netAt(below, netLeft, netTop), ...signsAt(text, right, bottom)];
      feet.push({ placed: low, widthAt: room(bottom - Math.max(CODE, below.height), beside), floor: bottom });
    }
  }
  return feet.filter(({ placed }) => placed.every((one) => one.y >= MARGIN));
};
