import { mg, type Milligrams } from '#lib/units/mass';
import { sumOf } from '#lib/units/sum';
import type { BatchState } from '../batch/index';
import type { MouldMade } from '../batch/moulds';
import { own } from '../batch/own';
import { contentsOf, hadIn, sourcesOf, unmadeParts, type Lotted } from '../batch/pouring/amounts';
import type { Source } from '../batch/pouring/types';
import type { InMould } from './from-mould';

/** What one bar of a lot may be of, by itself. `whole`: as weighed, where the materials are the most that may be in it; `null`: not weighed. */
export interface Mixture {
  readonly materials: readonly InMould[];
  readonly whole: Milligrams | null;
}

/**
 * Why bars of one lot need not be alike. `jugs`: nobody knows how much came from which. `cavities`: each may be of one jug alone. `moulds`: they
 * got different things. `part`: what was a part's own was weighed, and the part itself never was.
 */
export type NotAlike = 'jugs' | 'cavities' | 'moulds' | 'part';

export interface Mixtures {
  readonly all: readonly Mixture[];
  readonly why: readonly NotAlike[];
}

const asMaterials = (batch: BatchState, all: readonly Lotted[]): readonly InMould[] =>
  all.flatMap(({ line, lot, mass }) => {
    const plan = own(batch.lines, line)?.plan;
    return plan === undefined ? [] : [{ material: plan.material, lot, mass, high: mass }];
  });

const alone = (batch: BatchState, sources: readonly Source[]): readonly Mixture[] =>
  sources.map((source) => ({ materials: asMaterials(batch, contentsOf(batch, source)), whole: null }));

const sourcesIn = ({ parts }: MouldMade): readonly Source[] => parts.flatMap(({ source, high }) => (high > 0 ? [source] : []));

const ofMould = (batch: BatchState, mould: MouldMade, cavities: number): Mixtures => {
  const sources = sourcesIn(mould);
  const several = sources.length > 1;
  if (mould.mass === null) return { all: alone(batch, sources), why: several ? ['jugs'] : [] };
  // Its own cavities may have been filled one from this jug and one from that.
  if (several && cavities > 1) return { all: alone(batch, sources), why: ['cavities'] };
  return { all: [{ materials: mould.materials, whole: mould.mass }], why: mould.shares === 'known' ? [] : ['jugs'] };
};

/**
 * Everything that a bar out of these moulds may be of: the strongest of them counts where a label must not say too little. A bar is taken to be
 * like its mould; of one that nobody weighed, or whose cavities may differ, it may be all out of one jug. Of moulds that nobody made, all jugs.
 * @param cavities of each mould. Without moulds: what there is of the whole batch.
 */
export const mixturesOf = (batch: BatchState, moulds: readonly MouldMade[], cavities: number): Mixtures => {
  const there = sourcesOf(batch).filter((source) => hadIn(batch, source) > 0);
  const made: readonly Mixtures[] =
    moulds.length > 0
      ? moulds.map((mould) => ofMould(batch, mould, cavities))
      : [{ all: alone(batch, there), why: there.length > 1 ? ['jugs'] : [] }];
  const lost = unmadeParts(batch).map((all): Mixture => ({ materials: asMaterials(batch, all), whole: null }));
  const differ = new Set(moulds.flatMap(sourcesIn)).size > 1 && moulds.length > 1;
  return {
    all: [...made.flatMap(({ all }) => all), ...lost],
    why: [
      ...new Set([
        ...made.flatMap(({ why }) => why),
        ...(differ ? ['moulds' as const] : []),
        ...(lost.length > 0 ? ['part' as const] : []),
      ]),
    ],
  };
};

/** Everything that was added, at its most. */
export const massIn = (parts: readonly { readonly mass: Milligrams }[]): Milligrams => mg(sumOf(parts, ({ mass }) => mass));

/**
 * The bars once they have dried out, at their lightest: nothing in them is weaker then, nor in any swirl of halves that are not known apart.
 * @param water of the batter, a fraction
 */
export const lightestOf = (parts: readonly { readonly mass: Milligrams }[], { whole }: Pick<Mixture, 'whole'>, water: number): Milligrams =>
  mg(Math.max(1, Math.round(Math.min(massIn(parts), whole ?? Number.POSITIVE_INFINITY) * (1 - water))));
