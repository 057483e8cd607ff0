import fc from '#tests/support/property';
import { decide } from '#lib/work/batch/index';
import { MODEL_PLANS } from '#tests/support/model/plans';
import { natureOf } from '#tests/support/model/nature';
import { story } from './actions';
import type { Story } from './actions';
import type { Rules } from './play';
import { Broken, newTally, tell } from './tell';
import type { Tally, Telling } from './tell';

export interface Exploring extends Pick<Telling, 'rules' | 'only'> {
  readonly runs: number;
  readonly seed: number;
  /** Left out, all of them. */
  readonly plans?: readonly string[];
  /** Where fast-check found a failure in an earlier run with this seed: only that one is played again. */
  readonly path?: string;
  /** The first failure is enough, however long its story. */
  readonly unshortened?: boolean;
  /** Hears after each hundred stories how many were played. */
  readonly told?: (line: string) => void;
}

/** What did not hold, with the shortest story that shows it. */
export interface Found {
  readonly invariant: string;
  readonly why: string;
  readonly story: Story;
  readonly path: string;
  /** Runs until it was found, the one included. */
  readonly after: number;
}

export interface Explored {
  readonly runs: number;
  readonly tally: Tally;
  readonly found: Found | null;
}

/** Plays that many random stories, the same for the same seed; a story that breaks an invariant is made as short as it can be. */
export const explore = async ({
  runs,
  seed,
  plans = Object.keys(MODEL_PLANS),
  path,
  told,
  unshortened = false,
  ...telling
}: Exploring): Promise<Explored> => {
  const tally = newTally();
  let played = 0;
  const property = fc.asyncProperty(story(plans), async (one) => {
    await tell(one, { ...telling, tally });
    played += 1;
    if (played % 100 === 0) told?.(`${played} stories`);
  });
  const said = await fc.check(property, { seed, numRuns: runs, endOnFailure: unshortened, ...(path === undefined ? {} : { path }) });
  if (!said.failed) return { runs: said.numRuns, tally, found: null };
  const { errorInstance: error, counterexample, counterexamplePath } = said;
  const shortest = counterexample?.[0];
  if (shortest === undefined) throw error instanceof Error ? error : new Error(String(error));
  const why = error instanceof Error ? error.message : String(error);
  const invariant = error instanceof Broken ? error.invariant : 'nothing throws';
  return {
    runs: said.numRuns,
    tally,
    found: { invariant, why, story: shortest, path: counterexamplePath ?? '', after: said.numRuns },
  };
};

/** A failure as a person needs it: what, how to play it again, and step by step what happened. */
export const toldOf = ({ why, story: { actions, ...world }, path, after }: Found, seed: number): string =>
  [
    why,
    `found in run ${after}; again: npm run model -- --seed ${seed} --path ${path}`,
    `bench: ${JSON.stringify(world)}`,
    ...(['main', 'fine'] as const).map((role) => `${role} scale: ${JSON.stringify(natureOf(world.seed, role))}`),
    ...actions.map((one, i) => `  ${i + 1}. ${JSON.stringify(one)}`),
  ].join('\n');

/** The product's rules, except that they never remember which settled weights were used up. */
export const WITHOUT_EPISODES: Rules = (state, command) =>
  decide(state === null ? null : { ...state, consumed: { ...state.consumed, episode: -1 } }, command);
