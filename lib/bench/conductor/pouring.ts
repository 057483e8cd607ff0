import { settledFrame } from '#lib/measure/readings/settle';
import { mg } from '#lib/units/mass';
import type { Want } from '#lib/work/batch/index';
import { jobName } from '#lib/work/batch/pouring/jobs';
import { emptyOf, zeroOf } from '#lib/work/batch/pouring/places';
import type { Container, Source } from '#lib/work/batch/pouring/types';
import type { ScaleView } from '../conductor-types';
import type { PortionCue } from '../cue';
import { hindrance } from './hinder';
import { jobNow, sourcesNow } from './job';
import { lossScene, mayBeSource } from './pouring-loss';
import { at, change, isSettled, netNow, offer, sceneOf, shown, targetOf, type Base, type On } from './pouring-stage';
import { afterTare } from './stop';
import { setScale, wantOnce, within, type Scene, type Scenery, type Words } from './stage';
import { isLoaded, threshold } from './zero';

/**
 * Joined batter is parted off, poured into moulds by turns, and what stays behind is weighed. A jug or a mould stands on the pan empty
 * first, which the record keeps, and is weighed against that whenever it stands there again; many pours by turns need no word between
 * them. What does not fit a scale is poured by what its jug loses, from a zero that is kept nowhere. Every amount is a person's to take.
 */
export const pouringScene = (stage: Scenery): Scene => {
  const now = jobNow(stage);
  if (now === null) return { phase: 'pouring-moulds', portion: { at: 'done', mass: null } };
  const { job, memory } = now;
  const from = sourcesNow(stage, job, memory);
  const base: Base = { stage, job, memory, from, about: { key: job.key, by: memory.by, name: jobName(stage.batch, job), from } };
  const view = viewFor(base);
  if (view === undefined) return sceneOf(base, { at: 'no-scale', mass: null });
  const scale = stage.memory.scales[view.id];
  const hindered = hindrance(stage, view, scale ?? null);
  if (scale === undefined || (hindered !== null && hindered !== 'late')) return hinderedScene(base, view, hindered === 'overload');
  const on: On = { ...base, view, scale };
  if (!isLoaded(scale, null)) return emptyPan(on);
  if (!memory.freed && isFromBefore(on)) return at(on, { at: 'clear', mass: null });
  if (memory.by === 'loss') return lossScene(on);
  return job.kind === 'left' ? leftScene(on, job.source) : gainScene(on, job.key as Container);
};

/** What stood there before this was begun counts for nothing, but for the very jug or pot that is to be weighed by its loss. */
const isFromBefore = (on: On): boolean => on.memory.by === 'gain' || (on.memory.zero === null && !mayBeSource(on));

/** The scale a container was set down on; else the big one. */
const viewFor = ({ stage, job, memory }: Base): ScaleView | undefined => {
  const { scales } = stage.view;
  const set = job.kind !== 'left' && memory.by === 'gain' ? zeroOf(stage.batch, job.key as Container)?.instrument : undefined;
  return set === undefined ? (scales.find(({ role }) => role === 'main') ?? scales[0]) : scales.find(({ id }) => id === set);
};

/**
 * After anything that makes a gross weight doubtful the pan is to be seen free again, and a jug's own zero is gone. After the scale's own
 * tare key what stands there reads as a free pan does: then it must have been lifted, or a person holds to it.
 */
const hinderedScene = (base: Base, view: ScaleView, overload: boolean): Scene => {
  const scale = base.stage.memory.scales[view.id];
  const stop = scale?.stop ?? null;
  change(base, { freed: false, zero: null, off: false, stood: {} });
  const free = (): void => setScale(base.stage, view.id, { stop: null });
  if (scale !== undefined && stop?.why === 'tare-pressed') {
    const goOn = afterTare(scale, stop, free);
    if (goOn?.hold === false) free();
    return sceneOf(base, { at: 'clear', mass: null }, { instrument: view.id, goOn: goOn?.hold === true ? goOn : null });
  }
  if (stop !== null) free();
  return sceneOf(base, { at: overload ? 'too-heavy' : 'no-scale', mass: null }, { instrument: view.id });
};

const emptyPan = (on: On): Scene => {
  if (!on.memory.freed || !on.memory.off) change(on, { freed: true, off: true });
  const begun =
    on.memory.by === 'loss' ? on.memory.zero !== null : on.job.kind !== 'left' && zeroOf(on.stage.batch, on.job.key as Container) !== null;
  return sceneOf(on, { at: begun ? 'off' : toSetDown(on), mass: null }, { instrument: on.view.id, say: setDownWords(on) });
};

const toSetDown = ({ memory, from: [source = 'pot'] }: On): PortionCue['at'] =>
  memory.by === 'gain' ? 'set-down' : source === 'pot' ? 'set-pot' : 'set-jug';

const setDownWords = ({ stage, about, view }: On): Words => ({
  key: `pouring ${about.key} ${about.by} ${about.from[0] ?? ''} ${stage.batch.pour.pours.length}`,
  code: 'set-down',
  params: { vessel: standsOnPan(stage, about), scale: view.role },
});

/** By its loss it is the jug, or the pot, that stands there. */
const standsOnPan = ({ batch }: Scenery, { by, from: [source = 'pot'], name }: On['about']): string =>
  by === 'loss' ? jobName(batch, { key: `left:${source}`, kind: 'left', source }) : name;

const setContainer = ({ stage, view, scale }: On, container: Container): Want => ({
  kind: 'set-container',
  body: {
    container,
    instrument: view.id,
    gross: settledFrame(scale.track)?.gross ?? mg(Math.round(scale.track.level)),
    episode: scale.window?.episode ?? stage.memory.episode,
  },
});

/** Into what stands on the pan. */
const gainScene = (on: On, container: Container): Scene => {
  const { stage, scale } = on;
  const zero = zeroOf(stage.batch, container);
  if (zero === null) {
    if (isSettled(on) && stage.view.leased)
      wantOnce(stage, `container ${container} ${scale.window?.episode ?? 0}`, setContainer(on, container));
    return at(on, { at: 'settling', mass: null });
  }
  const net = netNow(on, zero.zero, 1);
  if (!isSettled(on)) return at(on, { at: 'moving', mass: shown(net) }, targetOf(on, net));
  // Lighter than it was empty: it is another one, and only a person knows.
  const anew = { code: 'count-from-here', hold: true, act: () => void stage.wants.push(setContainer(on, container)) } as const;
  if (net < -within(scale)) return at(on, { at: 'strange', mass: null }, { goOn: anew });
  if (net <= threshold(scale, null)) return at(on, { at: 'stands', mass: null }, targetOf(on, net));
  return offer(on, zero.zero, 1);
};

/** What stayed in a vessel whose empty mass is known. */
const leftScene = (on: On, source: Source): Scene => {
  const empty = emptyOf(on.stage.batch, source);
  if (empty === null) return at(on, { at: 'no-scale', mass: null });
  if (!isSettled(on)) return at(on, { at: 'moving', mass: null });
  return netNow(on, empty, 1) < -within(on.scale) ? at(on, { at: 'strange', mass: null }) : offer(on, empty, 1);
};
