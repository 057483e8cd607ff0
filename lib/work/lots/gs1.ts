import { addDays, dayOf, daysBetween, isDay } from '#lib/units/day';
import type { Day } from '#lib/units/day';

/** What a supplier's barcode says of a container; what it does not say is `null`. */
export interface Scanned {
  /** GTIN, 14 digits. */
  readonly gtin: string | null;
  /** Batch or lot number. */
  readonly lot: string | null;
  readonly bestBefore: Day | null;
  readonly expiry: Day | null;
  /** Net mass, mg. */
  readonly net: number | null;
}

/** Why a barcode that begins as an element string cannot be taken. */
export type ScanFault = 'check-digit' | 'date' | 'cut-off' | 'not-gs1';

export type ReadScan = { readonly ok: true; readonly said: Scanned } | { readonly ok: false; readonly fault: ScanFault };

/** Separates element strings; a reader sends FNC1 as it (GS1 General Specifications, release 18, section 7.8.4). */
const GS = '\u001d';
/** Readers put it before what they read when told to: GS1-128, DataBar, DataMatrix, QR code (same, 5.1.2). */
const SYMBOLOGY = /^\](C1|e0|d2|Q3)/;

/**
 * Whole length, identifier included, of element strings that have one by their first two digits and so need no separator (GS1 General
 * Specifications, release 18, figure 7.8.4-2).
 */
const LENGTHS: Readonly<Record<string, number>> = {
  '00': 20,
  '01': 16,
  '02': 16,
  '03': 16,
  '04': 18,
  '20': 4,
  '41': 16,
  ...Object.fromEntries(['11', '12', '13', '14', '15', '16', '17', '18', '19'].map((ai) => [ai, 8])),
  ...Object.fromEntries(['31', '32', '33', '34', '35', '36'].map((ai) => [ai, 10])),
};

const NOTHING: Scanned = { gtin: null, lot: null, bestBefore: null, expiry: null, net: null };

/** Whether a text is to be read as element strings: told by its symbology, in brackets, or by a sound GTIN at its beginning. */
export const looksLikeGs1 = (text: string): boolean => SYMBOLOGY.test(text) || /^\(\d{2,4}\)/.test(text) || /^01\d{14}/.test(text);

/** A barcode as a reader sent it, or as it stands below the bars in brackets. `wall`, ms: a year of two digits is one near it. */
export const readScan = (text: string, wall: number): ReadScan => {
  if (!looksLikeGs1(text)) return { ok: false, fault: 'not-gs1' };
  const pairs = text.startsWith('(') ? bracketed(text) : concatenated(text.replace(SYMBOLOGY, ''));
  if (pairs === null) return { ok: false, fault: 'cut-off' };
  let said = NOTHING;
  for (const [ai, value] of pairs) {
    const read = taken(said, ai, value, wall);
    if (typeof read === 'string') return { ok: false, fault: read };
    said = read;
  }
  return { ok: true, said };
};

type Pair = readonly [ai: string, value: string];

const bracketed = (text: string): readonly Pair[] | null => {
  const pairs = [...text.matchAll(/\((\d{2,4})\)([^(]+)/g)].map(([, ai = '', value = '']): Pair => [ai, value.trim()]);
  return pairs.length === 0 ? null : pairs;
};

const concatenated = (text: string): readonly Pair[] | null => {
  const pairs: Pair[] = [];
  for (let rest = text; rest !== '';) {
    if (rest.startsWith(GS)) {
      rest = rest.slice(1);
      continue;
    }
    const two = rest.slice(0, 2);
    const length = LENGTHS[two];
    const end = length ?? (rest.includes(GS) ? rest.indexOf(GS) : rest.length);
    const element = rest.slice(0, end);
    if (!/^\d\d/.test(element) || (length !== undefined && (element.length < length || element.includes(GS)))) return null;
    // The identifiers of measures have four digits; of all others that are asked for, two.
    const of = two === '31' ? 4 : 2;
    pairs.push([element.slice(0, of), element.slice(of)]);
    rest = rest.slice(end);
  }
  return pairs.length === 0 ? null : pairs;
};

const taken = (said: Scanned, ai: string, value: string, wall: number): Scanned | ScanFault => {
  if (ai === '01') return isGtin(value) ? { ...said, gtin: value } : 'check-digit';
  if (ai === '10') return value === '' || value.length > 20 ? 'cut-off' : { ...said, lot: value };
  if (ai === '15' || ai === '17') {
    const day = dayIn(value, wall);
    if (day === null) return 'date';
    return ai === '15' ? { ...said, bestBefore: day } : { ...said, expiry: day };
  }
  // Net weight in kilograms, with as many decimals as the identifier's last digit says.
  if (/^310[0-5]$/.test(ai)) return /^\d{6}$/.test(value) ? { ...said, net: Number(value) * 10 ** (6 - Number(ai[3])) } : 'cut-off';
  return said;
};

/** The check digit of a GTIN: weights 3 and 1 in turn (GS1 General Specifications, section 7.9.1). */
export const isGtin = (digits: string): boolean =>
  /^\d{14}$/.test(digits) && Array.from(digits, Number).reduce((sum, digit, at) => sum + digit * (at % 2 === 0 ? 3 : 1), 0) % 10 === 0;

/**
 * YYMMDD; 00 for the day is the month's last. Of the years it may be, the one from 49 before to 50 after now (GS1 General Specifications,
 * section 7.12).
 */
const dayIn = (text: string, wall: number): Day | null => {
  const [, yy, mm, dd] = /^(\d\d)(\d\d)(\d\d)$/.exec(text) ?? [];
  if (yy === undefined || mm === undefined || dd === undefined) return null;
  const now = Number(dayOf(wall, 0).slice(0, 4));
  const ahead = Number(yy) - (now % 100);
  const century = Math.floor(now / 100) + (ahead >= 51 ? -1 : ahead <= -50 ? 1 : 0);
  const month = `${century}${yy}-${mm}`;
  if (dd !== '00') return isDay(`${month}-${dd}`) ? `${month}-${dd}` : null;
  if (!isDay(`${month}-01`)) return null;
  const next = addDays(`${month}-01`, 31);
  return addDays(`${month}-01`, daysBetween(`${month}-01`, `${next.slice(0, 7)}-01`) - 1);
};
