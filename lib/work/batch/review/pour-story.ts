import type { EntryId } from '#lib/units/id';
import type { EntryOf } from '../entries';
import { standing, type Source } from '../pouring/types';
import type { BatchState } from '../state';

type Params = Readonly<Record<string, string | number>>;
type PourKind = 'pattern-named' | 'container-set' | 'parted' | 'mould-poured' | 'left-over' | 'batter-wrong' | 'photo-asked';
interface Told {
  readonly code: Exclude<PourKind, 'container-set'> | 'pattern-dropped';
  readonly params: Params;
}

const mouldOf = (batch: BatchState, n: number): Params => {
  const name = batch.plan.moulds?.find((one) => one.n === n)?.name;
  return { mark: `${batch.mark}/${n}`, ...(name === undefined ? {} : { mould: name }) };
};

/** A part by its name; the pot is the pot. */
export const sourceName = (batch: BatchState, source: Source): string =>
  source === 'pot' ? 'pot' : ((batch.plan.parts ?? []).find(({ id }) => source === `part:${id}`)?.name ?? source.slice('part:'.length));

const amount = ({ mass, source }: { readonly mass: number; readonly source?: 'by-hand' }): Params => ({
  mass,
  ...(source === undefined ? {} : { source }),
});

/** An amount that was poured, when that is what was crossed out. */
export const pouredOf = ({ pour, mark }: BatchState, entry: EntryId): Params => {
  const into = pour.pours.find((one) => one.entry === entry);
  if (into !== undefined) return { material: `${mark}/${into.mould}`, net: into.mass };
  const made = pour.parts.find((one) => one.entry === entry);
  if (made !== undefined) return { material: made.name, net: made.mass };
  const left = pour.left.find((one) => one.entry === entry);
  return left === undefined ? {} : { material: 'Left over', net: left.mass };
};

type Tell<K extends PourKind> = (entry: EntryOf<K>, batch: BatchState) => readonly Told[];

/** Parts, moulds and what went wrong with the batter; a jug set down empty is nobody's news. */
export const POUR_STORY: { readonly [K in PourKind]: Tell<K> } = {
  'pattern-named': ({ body: { mould, pattern, was, why } }, batch) => [
    {
      code: why === 'dropped' ? 'pattern-dropped' : 'pattern-named',
      params: { ...mouldOf(batch, mould), pattern, ...(was === null ? {} : { was }) },
    },
  ],
  'container-set': () => [],
  parted: ({ body }) => [{ code: 'parted', params: { name: body.name, ...amount(body) } }],
  'mould-poured': ({ body }, batch) => [
    {
      code: 'mould-poured',
      params: {
        ...mouldOf(batch, body.mould),
        from: body.from.map((one) => sourceName(batch, one)).join(' and '),
        jugs: body.from.length,
        ...amount(body),
      },
    },
  ],
  'left-over': ({ body }, batch) => [{ code: 'left-over', params: { of: sourceName(batch, body.of), ...amount(body) } }],
  'batter-wrong': ({ body }) => [{ code: 'batter-wrong', params: { what: body.what } }],
  'photo-asked': ({ body }, batch) => [
    { code: 'photo-asked', params: { of: body.of, ...(body.mould === null ? {} : mouldOf(batch, body.mould)) } },
  ],
};

/** Photographs that were asked for, each with the mark of its mould; a pattern that went wrong asks for none by itself. */
export const photosAsked = ({ pour, mark }: BatchState) =>
  pour.photos.map(({ of, mould, wall }) => ({ of, mark: mould === null ? null : `${mark}/${mould}`, wall }));

/** What stayed behind, source by source. */
export const leftBehind = (batch: BatchState) =>
  standing(batch.pour.left).map(({ of, mass, byHand }) => ({ of: sourceName(batch, of), mass, byHand }));
