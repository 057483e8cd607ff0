import type { Card, RemedyMatter, RemedySeen } from '#lib/bench/cue';
import { mg } from '#lib/units/mass';
import type { BatchState } from '#lib/work/batch/index';
import { aboutWords, clashWords, whyNotWords } from '#lib/words/remedy-messages';
import type { Show } from '../messages';
import { waysMessages as words } from '../messages-ways';

/** What it would make of the superfat: what a person asks first. */
export const superfatOf = ({ superfat }: RemedySeen, show: Show): string | null =>
  superfat === null ? null : aboutWords(show.share(superfat.value), show.share(superfat.half));

const named = (batch: BatchState | null, line: RemedyMatter['line']): string | null =>
  line === null ? null : (batch?.lines[line]?.plan.material.name ?? null);

/** What it makes of that which is out of its limits, where that is not superfat. */
export const mattersOf = ({ matters }: RemedySeen, batch: BatchState | null, show: Show): readonly string[] =>
  matters.map(({ of, line, value }) => words.matter[of](show.share(value), named(batch, line) ?? ''));

/** All limits in its way, each with the oil it is about and by how much. */
const clashesOf = ({ clashes }: RemedySeen, batch: BatchState | null, show: Show): readonly string[] =>
  clashes.map(({ limit, line, by, unit }) => {
    const amount = unit === 'mg' ? show.mass(mg(by)) : unit === 'ml' ? words.ml(by) : show.share(by);
    return clashWords(limit, named(batch, line), amount);
  });

/** Of the recommended way what to mind, then why it comes first; of the others why it cannot be taken, or what to mind. */
export const reasonOf = (
  { enabled, why }: Pick<Card, 'enabled' | 'why'>,
  seen: RemedySeen,
  batch: BatchState | null,
  show: Show,
): string => {
  const clashes = clashesOf(seen, batch, show);
  if (!enabled) return [whyNotWords[why ?? ''] ?? why ?? '', ...(clashes.length === 0 ? [] : [clashes.join(', ')])].join(': ');
  // What protects a person stands on the gate itself; here it comes after what is of this way alone.
  const cautions = seen.cautions.toSorted((a, b) => Number(a === 'protect') - Number(b === 'protect'));
  const own = (seen.ownBatch ?? []).map(({ line, mass }) => `${show.mass(mass)} ${named(batch, line)?.toLowerCase() ?? ''}`.trim());
  const minded = cautions.flatMap((one) => {
    if (one === 'label-as-own-batch' && own.length > 0) return [words.ownBatch(own)];
    return one === 'outside-formula' && clashes.length > 0 ? clashes : [words.cautions[one]];
  });
  return [...minded, ...(seen.recommended === null ? [] : [words.why[seen.recommended]])].join(', ');
};
