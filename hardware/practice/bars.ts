import type { BarsCue } from '#lib/bench/bars/types';
import type { ScaleRole } from '#lib/measure/instrument';
import type { InstrumentId } from '#lib/units/id';
import type { ShelfVessel } from './shelf-vessel';

/** A bar the bench asks for, as the simulated hands find it on the curing shelf. Masses in mg. */
export interface BarsHint {
  readonly bar: ShelfVessel;
  readonly role: ScaleRole;
  readonly phase: BarsCue['phase'];
}

/** What a bar that nobody knows anything of weighs when cut. */
const USUAL = 118_000;
/** Of a simulated bar: how much it may lose in all, how fast at first, and how far its neighbours are from it. Invented. */
const LOSES = 0.11;
const DAYS = 21;
const APART = 0.012;

/** The same bar of the same lot always differs from its lot alike: −1 to 1. */
const ownOf = (text: string): number => {
  let sum = 0;
  for (const letter of text) sum = (sum * 31 + (letter.codePointAt(0) ?? 0)) % 2003;
  return sum / 1001 - 1;
};

/** What a bar weighs now: by its own last weight, drier by the days since; the first time by its lot. */
const massOf = ({ lot, bar, expected, done, for: purpose }: BarsCue): number => {
  if (purpose === 'mass' && expected !== null) return expected.like;
  const name = `${lot} ${bar ?? `any ${done}`}`;
  if (expected === null) return Math.round(USUAL * (1 + APART * ownOf(name)));
  if (!expected.own) return Math.round(expected.like * (1 + APART * ownOf(name)));
  return Math.round(expected.like * (1 - LOSES * (1 - Math.exp(-expected.days / DAYS))));
};

/** What the bench wants of bars; `null` while none are weighed. */
export const barsHint = (
  cue: BarsCue | null,
  scales: readonly { readonly id: InstrumentId; readonly role: ScaleRole }[],
): BarsHint | null => {
  if (cue === null) return null;
  const name = cue.for === 'mass' ? 'known mass' : `${cue.mark} bar ${cue.bar ?? cue.done + 1}`;
  const role = scales.find(({ id }) => id === cue.scale)?.role ?? 'fine';
  const empty = massOf(cue);
  // What has dried is another thing to the scale: fetched anew.
  return { bar: { id: `${name} of ${empty} mg`, name, use: 'aside', empty, contents: 0 }, role, phase: cue.phase };
};
