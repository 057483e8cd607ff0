import type { Card, RemedyMatter, RemedySeen } from '#lib/bench/cue';
import { mg } from '#lib/units/mass';
import type { BatchState } from '#lib/work/batch/index';
import type { RemedyCaution } from '#lib/work/batch/remedy/types';
import { aboutWords, clashWords, remedyName, whyNotWords } from '#lib/words/remedy-messages';
import type { Params, Show } from '../messages';
import { waysMessages as words } from '../messages-ways';

/** A way out in words. All of it is read aloud; a card shows as much as it has room for, in this order. */
export interface WayWords {
  /** What to do. */
  readonly name: string;
  /** What comes of it: superfat, then what is wrong besides. */
  readonly figures: readonly string[];
  /** Targets that move, of the recommended one, where its name does not say by how much. */
  readonly moves: readonly string[];
  /** Why it cannot be taken, or what it leaves; what to mind; what it costs. */
  readonly notes: readonly string[];
  /** Why it is recommended; `null`: it is not. */
  readonly why: string | null;
}

const numberOf = (params: Params, key: string): number | null => (typeof params[key] === 'number' ? params[key] : null);

const named = (batch: BatchState | null, line: string | number | null | undefined): string | null =>
  Object.values(batch?.lines ?? {}).find(({ plan }) => plan.id === line)?.plan.material.name ?? null;

/** Lines that change together: the first few are in the parameters by their number. */
const movesIn = (params: Params, batch: BatchState | null, show: Show) =>
  [1, 2, 3].flatMap((n) => {
    const [of, by] = [named(batch, params[`line ${n}`]), numberOf(params, `move ${n}`)];
    return of === null || by === null ? [] : [{ of, mass: show.mass(Math.abs(by)), less: by < 0 }];
  });

const nameOf = ({ code, params, remedy }: Card, batch: BatchState | null, show: Show): string => {
  const mass = numberOf(params, 'mass');
  const taken = remedy === undefined || remedy.taken === 0 ? null : show.mass(remedy.taken);
  return remedyName(code, {
    of: named(batch, params['line']),
    mass: mass === null ? null : show.mass(mass),
    count: numberOf(params, 'count') ?? 0,
    moves: movesIn(params, batch, show),
    taken,
  });
};

const matterWords = ({ of, line, value }: RemedyMatter, batch: BatchState | null, show: Show): string =>
  words.matter[of](show.share(value), named(batch, line) ?? '');

/** All limits in its way, each with the oil it is about and by how much. */
const clashesOf = ({ clashes }: RemedySeen, batch: BatchState | null, show: Show): readonly string[] =>
  clashes.map(({ limit, line, by, unit }) => {
    const amount = unit === 'mg' ? show.mass(mg(by)) : unit === 'ml' ? words.ml(by) : show.share(by);
    return clashWords(limit, named(batch, line), amount);
  });

/** Names of ways that say themselves how much of what. */
const SAYS_ALL: ReadonlySet<string> = new Set(['add', 'least-change']);

const WHOLE = 1_000_000;

/** What it takes, and how full the moulds are where it makes more, or too much for them. */
const costOf = (code: string, { added, taken, full, matters }: RemedySeen, show: Show): readonly string[] => [
  ...(added > 0 && !SAYS_ALL.has(code) ? [code === 'scale' ? words.addsInAll(show.mass(added)) : words.adds(show.mass(added))] : []),
  // What only takes something out is named for it.
  ...(taken > 0 && added > 0 ? [words.takes(show.mass(taken))] : []),
  ...(full !== null && (code === 'scale' || full > WHOLE) && matters.every(({ of }) => of !== 'moulds')
    ? [words.full(show.share(full))]
    : []),
];

/** Cards that only wait for the reading to rest say what they will do all the same. */
const isClosed = ({ enabled, why }: Card): boolean => !enabled && why !== 'settling';

/** Why it is closed is just which limits it leaves. */
const SAID_BY_LIMITS: ReadonlySet<string> = new Set(['outside-limit', 'no-solution']);
/** What the gate says before hydroxide is opened: on a card that nobody recommends it has no room. */
const AT_THE_GATE: ReadonlySet<RemedyCaution> = new Set(['protect', 'slowly']);

const notesOf = (card: Card, seen: RemedySeen, batch: BatchState | null, show: Show): readonly string[] => {
  const clashes = clashesOf(seen, batch, show);
  if (isClosed(card)) {
    const why = whyNotWords[card.why ?? ''] ?? card.why ?? '';
    return clashes.length === 0 ? [why] : SAID_BY_LIMITS.has(card.why ?? '') ? clashes : [`${why}: ${clashes.join(', ')}`];
  }
  const cautions = seen.recommended === null ? seen.cautions.filter((one) => !AT_THE_GATE.has(one)) : seen.cautions;
  const own = (seen.ownBatch ?? []).map(({ line, mass }) => `${show.mass(mass)} ${named(batch, line)?.toLowerCase() ?? ''}`.trim());
  const needed = (seen.ownBatch ?? []).reduce((sum, { mass }) => sum + mass, 0);
  const minded = cautions.flatMap((one) => {
    if (one === 'label-as-own-batch' && own.length > 0) return [words.ownBatch(own, show.mass(needed))];
    return one === 'outside-formula' && clashes.length > 0 ? clashes : [words.cautions[one]];
  });
  const cost = costOf(card.code, seen, show);
  return [...(seen.solved || card.code === 'stop' ? [] : [words.unsolved]), ...minded, ...cost];
};

/** A way out, or crossing out among them, in words. */
export const wayWords = (card: Card, batch: BatchState | null, show: Show): WayWords => {
  const { remedy, params } = card;
  if (remedy === undefined) {
    const { name, sub } = words.crossOut;
    return { name, figures: [], moves: [], notes: [sub(show.mass(numberOf(params, 'over') ?? 0))], why: null };
  }
  const { superfat, matters, lines, recommended } = remedy;
  const about = superfat === null ? [] : [words.superfat(aboutWords(show.share(superfat.value), show.share(superfat.half)))];
  const bare = lines.length === 1;
  const saysAll = SAYS_ALL.has(card.code) && (bare || `line ${lines.length}` in params);
  return {
    name: nameOf(card, batch, show),
    figures: [...about, ...matters.map((matter) => matterWords(matter, batch, show))],
    moves:
      saysAll || recommended === null
        ? []
        : lines.map(({ line, from, to }) =>
            words.line(bare ? '' : (named(batch, line) ?? ''), show.mass(from).replace(/\s\D+$/, ''), show.mass(to)),
          ),
    notes: notesOf(card, remedy, batch, show),
    why: recommended === null ? null : words.why[recommended],
  };
};

/** A way out as it is read aloud. */
export const wayText = (card: Card, batch: BatchState | null, show: Show): string => {
  const { name, figures, moves, notes, why } = wayWords(card, batch, show);
  const told = why === null ? [] : [words.recommended(why)];
  return `${name}: ${[...figures, ...moves, ...notes, ...told].join('. ')}.`;
};
