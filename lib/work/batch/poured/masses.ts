import type { MassError, PotMasses } from '#lib/soap/poured/types';
import type { EntryId, InstrumentId, LineId } from '#lib/units/id';
import type { BatchState, Contribution, LineState } from '../state';
import { SET_ASIDE, STATED } from './stated';
import type { PouredBasis, ScaleBasis } from './basis';
import type { LivePour } from './types';
import { errorOf, gainOf, readingSpread, tareSpread, toComeSpread, typedSpread } from './weighing';

const GRAM = 1000;

interface Placed {
  readonly at: number;
  readonly one: Contribution;
}

/** Grams that a unit of some causes puts on each line, by the cause. */
type Effects = Map<string, Map<number, number>>;

const put = (effects: Effects, key: string, line: number, grams: number): void => {
  const of = effects.get(key) ?? new Map<number, number>();
  of.set(line, (of.get(line) ?? 0) + grams);
  effects.set(key, of);
};

const byEntry = (all: readonly Placed[]): ReadonlyMap<EntryId, readonly Placed[]> => {
  const groups = new Map<EntryId, Placed[]>();
  for (const placed of all) groups.set(placed.one.entry, [...(groups.get(placed.one.entry) ?? []), placed]);
  return groups;
};

/**
 * Readings, each once, with what an error of one gram in it does to every line. What an entry weighed falls on its lines by their shares;
 * a reading that ends one weighing and begins another stands in both, with opposite signs.
 */
const ofReadings = (
  groups: ReadonlyMap<EntryId, readonly Placed[]>,
  scaleOf: (id: InstrumentId) => ScaleBasis | undefined,
): readonly MassError[] => {
  const effects: Effects = new Map();
  const spread = new Map<string, { readonly cause: 'reading' | 'tare'; readonly of: string; readonly u: number }>();
  for (const [entry, group] of groups) {
    const weighed = group[0]?.one.weighed ?? null;
    if (weighed === null) continue;
    const { instrument, gross, zero, step, readings } = weighed;
    const between = gross - zero;
    if (between === 0) continue;
    const u = readingSpread(scaleOf(instrument), step);
    const grossKey = `${instrument} ${readings.gross}`;
    const zeroKey = readings.zero === null ? `${instrument} zero of ${entry}` : `${instrument} ${readings.zero}`;
    spread.set(grossKey, { cause: 'reading', of: instrument, u });
    spread.set(zeroKey, { cause: 'reading', of: instrument, u });
    // A zero of nought is one that the scale took itself.
    if (zero === 0) spread.set(`${zeroKey} tare`, { cause: 'tare', of: instrument, u: tareSpread(step) });
    for (const { at, one } of group) {
      const part = one.net / between;
      put(effects, grossKey, at, part);
      put(effects, zeroKey, at, -part);
      if (zero === 0) put(effects, `${zeroKey} tare`, at, -part);
    }
  }
  return [...effects].flatMap(([key, effect]) => {
    const known = spread.get(key);
    if (known === undefined) return [];
    return errorOf(known.cause, known.of, new Map([...effect].map(([line, grams]) => [line, grams * known.u] as const)));
  });
};

/** What a person typed or stated: no scale of ours is in it, and each is off by itself. */
const ofWords = (groups: ReadonlyMap<EntryId, readonly Placed[]>, idOf: (at: number) => string): readonly MassError[] =>
  [...groups.values()].flatMap((group) => {
    const [first] = group;
    if (first === undefined || first.one.weighed !== null) return [];
    const { kind } = first.one;
    if (kind === 'typed') return errorOf('typed', idOf(first.at), new Map([[first.at, typedSpread(first.one)]]));
    const rate = kind === 'lost' ? STATED.lost : STATED.withdrawn;
    return errorOf(
      'stated',
      kind === 'brought' ? SET_ASIDE : idOf(first.at),
      new Map(group.map(({ at, one }) => [at, (rate * one.net) / GRAM] as const)),
    );
  });

/** What counts as poured and, as a person says, still lies in its jug: not in the pot, whatever the record had. Milligrams. */
const inJugOf = ({ leftInJug }: BatchState, { plan, actual }: LineState): number =>
  Math.min(
    actual,
    leftInJug.reduce((sum, { line, mass }) => (line === plan.id ? sum + mass : sum), 0),
  );

/** What of a line is still to be weighed, mg, with a pour under way. */
const toComeOf = ({ plan, status, actual }: LineState, live: number): number =>
  status === 'closed' ? 0 : Math.max(0, plan.target - actual - live);

const scaleFor = (basis: PouredBasis, { plan }: LineState): ScaleBasis | undefined =>
  plan.mode === 'by-hand' ? undefined : basis.scales.find(({ role }) => role === plan.scale);

/**
 * Grams of each line as weighed, in the order given; what is still to come at plan, off by its tolerance and by its scale's gain. `live`
 * is a pour under way: beyond the target it counts as it stands.
 */
export const massesFrom = (
  state: BatchState,
  basis: PouredBasis,
  lines: readonly LineState[],
  live: LivePour | null,
): PotMasses & { readonly toCome: readonly LineId[] } => {
  const idOf = (at: number): string => lines[at]?.plan.id ?? '';
  const scaleOf = (id: InstrumentId): ScaleBasis | undefined => basis.scales.find(({ instrument }) => instrument === id);
  const placed = lines.flatMap((line, at) =>
    line.contributions.flatMap((one): Placed[] => (one.struck === null && one.net !== 0 ? [{ at, one }] : [])),
  );
  const groups = byEntry(placed);
  const gains: Effects = new Map();
  for (const { at, one } of placed) if (one.weighed !== null) put(gains, one.weighed.instrument, at, one.net / GRAM);
  const errors: MassError[] = [...ofReadings(groups, scaleOf), ...ofWords(groups, idOf)];
  const toCome: LineId[] = [];
  const grams = lines.map((line, at) => {
    const pouring = live?.line === line.plan.id && line.status !== 'closed' ? Math.max(0, live.net) : 0;
    const left = toComeOf(line, pouring);
    const scale = scaleFor(basis, line);
    if (left > 0) {
      toCome.push(line.plan.id);
      errors.push(...errorOf('to-come', idOf(at), new Map([[at, toComeSpread(line.plan.tolerance)]])));
      if (scale !== undefined) put(gains, scale.instrument, at, left / GRAM);
    }
    if (pouring > 0 && live !== null) {
      put(gains, live.instrument, at, pouring / GRAM);
      if (left === 0)
        errors.push(
          ...errorOf('reading', live.instrument, new Map([[at, Math.SQRT2 * readingSpread(scaleOf(live.instrument), live.step)]])),
        );
    }
    const inJug = inJugOf(state, line);
    errors.push(...errorOf('stated', idOf(at), new Map([[at, (STATED.withdrawn * inJug) / GRAM]])));
    return Math.max(0, line.actual + pouring + left - inJug) / GRAM;
  });
  for (const [instrument, effect] of gains) {
    const id = instrument as InstrumentId;
    const used = placed.filter(({ one }) => one.weighed?.instrument === id).map(({ one }) => one);
    const { u, checked } = gainOf(state, id, scaleOf(id), used);
    errors.push(
      ...errorOf('gain', id, new Map([...effect].map(([line, mass]) => [line, mass * u] as const))).map((one) => ({ ...one, checked })),
    );
  }
  return { grams, errors, toCome };
};
