import type { InstrumentId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import { settledFrame } from '#lib/measure/readings/settle';
import type { Monotonic } from '#lib/units/time';
import type { BatchState, Observation } from '#lib/work/batch/index';
import type { Conductor } from '../conductor-types';
import { ask } from './asks';
import { IDLE_CUE } from './blank';
import { cueOf } from './cue';
import { listen } from './listen';
import { chooseJob } from './job';
import { initialMemory, type AskingMemory, type ConductorMemory } from './memory';
import { standingAt } from './pour';
import { followChoices, press, take } from './presses';
import { followRecord } from './record';
import { speak } from './say';
import { sceneNow, watch } from './scenes';
import { isLate, type Scenery, type Stage } from './stage';

export type { ConductorMemory } from './memory';

/**
 * Leads the weigh-in: readings and presses in, wants and one cue out. Pure; what was handed in is never changed. A weight is only ever
 * wanted from a fresh, settled, unsuspect reading of the right scale with the right vessel on it, and never twice from one window.
 */
export const conductor: Conductor<ConductorMemory> = {
  initial: ({ episode }) => initialMemory(episode),
  step: (before, batch, view, event, now) => {
    const memory = { ...before };
    const heard = event.kind === 'reading' ? event.reading.instrument : null;
    const stage: Stage = { memory, view, now, wants: [], heard };
    listen(stage, event, batch);
    if (batch === null) return idle(stage);
    const scenery: Scenery = { ...stage, batch };
    followRecord(scenery);
    watch(scenery);
    const scene = sceneNow(scenery);
    followChoices(scenery, scene);
    if (event.kind !== 'press' && event.kind !== 'take' && event.kind !== 'ask' && event.kind !== 'job') return finish(scenery, scene);
    if (event.kind === 'press') press(scenery, scene, event.press);
    if (event.kind === 'take') take(scenery, scene, event);
    if (event.kind === 'ask') ask(scenery, event.ask);
    if (event.kind === 'job') chooseJob(scenery, event);
    // A press may have changed what is shown; nothing is wanted twice by looking again.
    const wants = scenery.wants.splice(0);
    const after = sceneNow(scenery);
    followChoices(scenery, after);
    return { ...finish(scenery, after), wants: [...wants, ...scenery.wants] };
  },
};

const finish = (stage: Scenery, scene: ReturnType<typeof sceneNow>) => {
  speak(stage, scene);
  return { memory: stage.memory, wants: stage.wants, cue: cueOf(stage, scene) };
};

const idle = ({ memory, wants }: Stage) => {
  memory.pour = null;
  memory.batch = null;
  return { memory, wants, cue: { ...IDLE_CUE, say: memory.say, episode: memory.episode + 1 } };
};

/** What ways out are wanted for in the step of this moment. */
export const askingOf = ({ asking }: ConductorMemory, now: Monotonic): AskingMemory | null =>
  asking !== null && asking.at === now ? asking : null;

/** What is poured for the open line and in no entry yet: as it stands settled, else the most that was seen of it. `null`: nothing. */
export const pouredOn = ({ pour, scales }: ConductorMemory, batch: BatchState | null): NonNullable<Observation['poured']> | null => {
  const line = pour === null ? undefined : batch?.lines[pour.line];
  if (pour === null || line === undefined || !pour.begun) return null;
  const track = scales[pour.instrument]?.track;
  const stands = pour.lifted === null && track?.stable === true;
  const net = stands ? standingAt(line, pour, track.level).net : Math.max(pour.highest, pour.stood);
  return net > 0 ? { line: pour.line, net: mg(Math.round(net)) } : null;
};

/**
 * The settled weight a completed command may rest on: `null` while the scale moves, is blocked, or (when `now` is given) late. The
 * gross is the median reading of the window, the same as in the conductor's own wants.
 */
export const settledOn = (memory: ConductorMemory, instrument: InstrumentId, now?: Monotonic): Observation['settled'] => {
  const scale = memory.scales[instrument];
  if (scale === undefined || scale.stop !== null || scale.window === null) return null;
  if (now !== undefined && isLate(scale, now)) return null;
  const settled = settledFrame(scale.track);
  return settled === null ? null : { instrument, gross: settled.gross, episode: scale.window.episode };
};
