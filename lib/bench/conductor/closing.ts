import type { PortionCue } from '../cue';
import { choice } from './choices';
import { sayNow } from './say';
import type { Scene, Scenery } from './stage';

type At = PortionCue['at'] | undefined;

/** A press while the weight moves is meant for what comes of it. */
const UNDER_WAY: ReadonlySet<At> = new Set(['moving', 'settling']);
/** What does not belong on the pan is seen to first. */
const IN_THE_WAY: ReadonlySet<At> = new Set(['strange', 'probe', 'clear']);

/**
 * Where the pour itself has nothing to go on with, "go on" asks whether the batch is to be closed; closing is held, as it is by touch. What
 * the pour comes to ask meanwhile goes before, and the pan is followed all the while.
 */
export const closable = (stage: Scenery, pour: Scene): Scene => {
  const { memory, batch } = stage;
  const at = pour.portion?.at;
  if ((pour.goOn ?? null) !== null || pour.choices !== undefined || IN_THE_WAY.has(at) || batch.wrong !== null) {
    memory.closing = false;
    return pour;
  }
  if (memory.closing) return { ...pour, portion: { at: 'closing', mass: null }, say: null, choices: closingChoices(stage) };
  if (UNDER_WAY.has(at)) return pour;
  const act = (): void => {
    memory.closing = true;
    sayNow(stage, 'closing', {});
  };
  return { ...pour, goOn: { code: 'close-batch', hold: false, act } };
};

const closingChoices = (stage: Scenery) => [
  choice('close-batch', {}, true, () => void stage.wants.push({ kind: 'close', body: {} })),
  choice('pour-on', {}, false, () => {
    stage.memory.closing = false;
  }),
];
