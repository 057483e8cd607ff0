import { tooHotForHydroxide } from '#lib/work/batch/cooled';
import type { BatchState, LineState } from '#lib/work/batch/index';
import { joiningHolds, lyeMade, mayJoin, withTyped, type JoiningHold } from '#lib/work/batch/joining';
import { asPoured } from '#lib/work/batch/poured/as-poured';
import { SET_ASIDE } from '#lib/work/batch/poured/stated';
import { PRECAUTIONS } from '#lib/work/batch/precautions';
import type { JoiningCue } from '../cue';
import { choice, closedChoice } from './choices';
import { closable } from './closing';
import { overRatingScene, probeValue } from './over-rating';
import { portionsScene } from './portions';
import { pouringScene } from './pouring';
import { patternsScene, troubleScene } from './trouble';
import type { Choice, Scene, Scenery } from './stage';

/** Everything is weighed: the lye is made, temperatures are waited for, overrides are held, and the halves are joined. */
export const joiningScene = (stage: Scenery): Scene => {
  const { batch } = stage;
  const { joining, holds } = joiningNow(stage);
  if (!lyeMade(batch)) {
    const lye = lyeScene(stage);
    if (lye !== null) return { ...lye, joining };
  }
  const unnamed = patternsScene(stage);
  if (unnamed !== null) return { ...unnamed, joining };
  const ready = mayJoin(holds);
  const choices = [joinChoice(stage, holds), ...holds.filter(mayOverride).map((hold) => overrideChoice(stage, hold))];
  const say = { key: `joining ${ready ? 'ready' : 'waits'}`, code: 'all-weighed', params: { ready: ready ? 1 : 0 } } as const;
  return { phase: ready ? 'joining' : 'temperatures', joining, choices, say };
};

/** What stands against joining by what the probes, and a person's hand, say now. */
const joiningNow = (
  stage: Pick<Scenery, 'batch' | 'view' | 'now'>,
): { readonly joining: JoiningCue; readonly holds: readonly JoiningHold[] } => {
  const { batch, view, now } = stage;
  const probes = { lye: probeValue(stage, 'lye'), oils: probeValue(stage, 'oils'), milk: null };
  const temperatures = withTyped(batch, probes, view.boot ?? batch.boot, now);
  const holds = joiningHolds(batch, temperatures, view.lyeSeen);
  const { lye, oils } = temperatures;
  const apart = lye === null || oils === null ? null : Math.abs(lye - oils);
  return { joining: { ready: mayJoin(holds), holds, lye, oils, apart }, holds };
};

const mayOverride = (hold: JoiningHold): boolean => hold.overridable && !hold.overridden && hold.level === 'hold';

/** Lye that crosses no limit is held while it may still heat. */
const heats = ({ reason, limit }: JoiningHold): boolean => reason === 'lye-too-hot' && limit === null;

const joinChoice = (stage: Scenery, holds: readonly JoiningHold[]): Choice => {
  const against = holds.find((hold) => hold.level === 'hold' && !hold.overridden);
  if (against !== undefined) return closedChoice('join', {}, heats(against) ? 'lye-still-heating' : against.reason);
  return choice('join', {}, true, () => void stage.wants.push({ kind: 'join', body: { held: true } }));
};

const overrideChoice = (stage: Scenery, hold: JoiningHold): Choice => {
  const { reason, value, limit } = hold;
  const because = reason === 'may-be-lye-heavy' ? becauseOf(stage.batch) : {};
  const params = { reason, ...(value === null ? {} : { value }), ...(limit === null ? {} : { limit }), ...because };
  return choice('override', params, true, () => {
    if (isTemperature(reason)) stage.wants.push({ kind: 'override', body: { reason, held: true, note: '' } });
  });
};

/** What makes the superfat as unsure as it is most of all: the cause of the width, and of what it is. */
const becauseOf = (batch: BatchState): Readonly<Record<string, string>> => {
  const answer = asPoured(batch);
  const widest = answer.kind === 'figures' ? answer.superfat?.parts[0] : undefined;
  if (widest === undefined) return {};
  const { what, of, name } = widest;
  return { because: what === 'stated' && of === SET_ASIDE ? SET_ASIDE : what, name };
};

type Temperature = Exclude<JoiningHold['reason'], Firm>;
type Firm = 'line-open' | 'lye-not-made' | 'alarm' | 'lye-heavy' | 'pattern-unnamed';
const FIRM: ReadonlySet<string> = new Set<Firm>(['line-open', 'lye-not-made', 'alarm', 'lye-heavy', 'pattern-unnamed']);
const isTemperature = (reason: JoiningHold['reason']): reason is Temperature => !FIRM.has(reason);

/** Hydroxide still dry in its cup: cold liquid is confirmed first, then it goes in; never the reverse. */
const lyeScene = (stage: Scenery): Scene | null => {
  const vessels = Object.values(stage.batch.vessels);
  const cup = vessels.find((vessel) => vessel.state === 'dry' && vessel.contents > 0);
  const jug = vessels.find((vessel) => vessel.plan.use === 'liquid' && vessel.contents > 0);
  if (cup === undefined || jug === undefined) return null;
  const into = { vessel: cup.plan.name, into: jug.plan.name };
  const { batch, view, now } = stage;
  const seen = { lye: probeValue(stage, 'lye'), lyeSeen: view.lyeSeen ?? null, boot: view.boot ?? batch.boot, mono: now };
  const card = { ...into, card: 'dissolve' } as const;
  if (tooHotForHydroxide(batch, jug, seen) !== null) {
    const say = { key: 'dissolve too hot', code: 'card', params: { ...card, why: 'lye-too-hot' } } as const;
    return { phase: 'temperatures', vessel: cup.plan.id, choices: [closedChoice('dissolve', into, 'lye-too-hot')], say };
  }
  const locked = overRatingScene(stage);
  if (locked !== null) return { ...locked, vessel: cup.plan.id };
  if (stage.batch.gates['cold-liquid'] === undefined) {
    const gate = 'cold-liquid';
    const items = PRECAUTIONS[gate];
    const act = (): void => void stage.wants.push({ kind: 'confirm-gate', body: { gate, line: null, items, held: true } });
    return {
      phase: 'gate',
      vessel: jug.plan.id,
      gate: { gate, items },
      goOn: { code: 'confirm-gate', hold: true, act },
      say: { key: `gate ${gate} ${cup.plan.id}`, code: 'gate', params: { gate, vessel: jug.plan.name } },
    };
  }
  const body = { vessel: cup.plan.id, into: jug.plan.id, held: true };
  const dissolve = choice('dissolve', into, true, () => {
    stage.wants.push({ kind: 'dissolve', body });
  });
  return { phase: 'temperatures', vessel: cup.plan.id, choices: [dissolve], say: { key: 'dissolve', code: 'card', params: card } };
};

const MARKS = ['thin', 'medium', 'thick', 'wrong'] as const;

/** Joined: trace is stamped, what goes in at trace is weighed, then only pouring is left. */
export const joinedScene = (stage: Scenery, lineScene: (line: LineState) => Scene): Scene => {
  const { batch } = stage;
  if (batch.trace.length === 0) {
    const choices = MARKS.map((mark) =>
      choice(`trace-${mark}`, {}, false, () => void stage.wants.push({ kind: 'stamp-trace', body: { mark, note: '' } })),
    );
    return { phase: 'trace', choices, say: { key: 'trace', code: 'trace', params: {} } };
  }
  const trouble = troubleScene(stage);
  if (trouble !== null) return trouble;
  const line = batch.open === null ? undefined : batch.lines[batch.open];
  if (line === undefined) return closable(stage, batch.plan.moulds === undefined ? portionsScene(stage) : pouringScene(stage));
  stage.memory.portion = null;
  return lineScene(line);
};
