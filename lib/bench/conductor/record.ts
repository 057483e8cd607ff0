import type { InstrumentId } from '#lib/units/id';
import type { BatchState } from '#lib/work/batch/index';
import { bottleOn } from './bottle';
import { standOf } from './lift';
import type { StandMemory } from './memory';
import { isRunning } from './pour';
import { sayAccepted, sayNow } from './say';
import { setScale, type Scenery } from './stage';
import { leavePour } from './strayed';

/** A batch last resumed in another boot: nobody here has seen what happened meanwhile. */
export const needsResume = ({ batch, view }: Scenery): boolean => batch.resumedInBoot !== (view.boot ?? batch.boot);

/** Brings the memory up to what the record says now. Cheap when nothing was committed. */
export const followRecord = (stage: Scenery): void => {
  const { memory, batch } = stage;
  // Before anything is looked at: what was poured into a line that is done, or from another zero, is no running pour.
  if (memory.pour !== null && !isRunning(batch, memory.pour)) {
    leavePour(stage, memory.pour);
    memory.pour = null;
  }
  if (batch.status !== 'joined') memory.portion = memory.job = null;
  const came = memory.batch !== batch.id;
  if (came) begin(stage);
  else if (memory.version === batch.version) return refreshStands(stage, batch.version);
  const before = came || needsResume(stage) ? batch.version : memory.version;
  memory.version = batch.version;
  memory.inherited = stillInherited(memory.inherited, batch);
  if (batch.away === null && memory.returning) {
    memory.returning = false;
    sayNow(stage, 'returned', {});
  }
  refreshStands(stage, before);
};

/** A batch that comes into view with zeros taken before: what happened on those pans since then nobody has seen. */
const begin = (stage: Scenery): void => {
  const { memory, batch } = stage;
  memory.batch = batch.id;
  memory.pour = null;
  memory.portion = null;
  memory.job = null;
  memory.inherited = Object.fromEntries(Object.entries(batch.pans).map(([id, pan]) => [id, pan.zero]));
};

/** A zero that the record shifts, or takes up again, was not read anew: what happened before is as unknown as it was. */
const stillInherited = (inherited: Scenery['memory']['inherited'], batch: BatchState): Scenery['memory']['inherited'] =>
  Object.fromEntries(
    Object.entries<number>(inherited).flatMap(([id, zero]) => {
      const pan = batch.pans[id as InstrumentId];
      return pan === undefined || (pan.zero !== zero && pan.reading !== null) ? [] : [[id, pan.zero]];
    }),
  );

/** Tells what was accepted after version `since`; what stands there from before a start, a pause or a lost scale is not told again. */
const refreshStands = (stage: Scenery, since: number): void => {
  for (const id of Object.keys(stage.memory.scales) as InstrumentId[]) {
    const scale = stage.memory.scales[id];
    if (scale === undefined) continue;
    const bottle = bottleOn(stage.batch, id, scale);
    if (bottle !== scale.bottle) setScale(stage, id, { bottle });
    const stand = standOf(stage.batch, id, scale);
    if (stand === scale.stand) continue;
    setScale(stage, id, { stand });
    if (stand !== null && acceptedAt(stage.batch, stand) > since)
      sayAccepted(stage, acceptedWords(stage.batch, stand.line, scale.track.division));
  }
};

/** Version of the batch at which it was entered. */
const acceptedAt = ({ lines }: BatchState, { line, entry }: StandMemory): number =>
  lines[line]?.contributions.find((one) => one.entry === entry)?.version ?? 0;

/** With the step of its own scale: the next line may be on another. */
const acceptedWords = (batch: BatchState, line: keyof BatchState['lines'], division: number) => {
  const state = batch.lines[line];
  return { material: state?.plan.material.name ?? '', net: state?.actual ?? 0, division };
};
