import type { InstrumentId } from '#lib/units/id';
import type { MassReading } from '#lib/measure/reading';
import { follow, restart, span, startTrack } from '#lib/measure/readings/settle';
import type { BatchState } from '#lib/work/batch/index';
import type { ConductorEvent } from '../conductor-types';
import { followBottle } from './bottle';
import { followStrayed } from './strayed';
import { followEmpty } from './zero';
import type { ScaleMemory, StopMemory } from './memory';
import { setScale, type Stage } from './stage';

/** Takes in what a scale said, or what makes its past worthless. Whatever this leaves standing is fit to be judged. */
export const listen = (stage: Stage, event: ConductorEvent, batch: BatchState | null): void => {
  if (event.kind === 'reading') hear(stage, event.reading, batch);
  if (event.kind === 'disarm') disarm(stage, event, batch);
};

const newScale = (step: number, told: number): ScaleMemory => ({
  track: startTrack(Math.max(step, told), told),
  window: null,
  empty: 0,
  emptySeen: false,
  drift: null,
  lastLevel: null,
  stop: null,
  stand: null,
  bottle: null,
  strayed: null,
});

const toldOf = ({ view }: Stage, id: InstrumentId): number => {
  const scale = view.scales.find((one) => one.id === id);
  return (scale?.told === undefined ? scale?.division : scale.told) ?? 0;
};

const hear = (stage: Stage, reading: MassReading, batch: BatchState | null): void => {
  const id = reading.instrument;
  const before = stage.memory.scales[id] ?? newScale(reading.step, toldOf(stage, id));
  // Readings counted anew: the port was opened again, whether or not anybody said so.
  const reopened = reading.seq <= (before.track.frames.at(-1)?.seq ?? 0);
  const known = reopened ? stopped(before, 'disarmed', stage.now, batch) : before;
  const track = follow(known.track, reading);
  const heard: ScaleMemory = { ...known, track, stop: stopFor(known, { ...known, track }, reading, batch, id) };
  const settled = followStrayed(stage, before, followBottle(followEmpty(heard, reading.at)), batch, id);
  const window = windowFor(stage, settled, batch);
  const lastLevel = track.stable && settled.stop === null ? track.level : settled.lastLevel;
  stage.memory.scales = { ...stage.memory.scales, [id]: { ...settled, window, lastLevel } };
};

/** A settled window keeps its episode while it stands; a new one, or one the record has used up, gets the next number. */
const windowFor = (stage: Stage, scale: ScaleMemory, batch: BatchState | null): ScaleMemory['window'] => {
  const { track, window } = scale;
  if (!track.stable) return null;
  const spent = window !== null && window.episode <= spentEpisode(stage, batch);
  if (window !== null && !spent && Math.abs(track.level - window.level) <= span(track)) return window;
  stage.memory.episode = Math.max(stage.memory.episode, spentEpisode(stage, batch)) + 1;
  return { episode: stage.memory.episode, level: track.level };
};

/** Highest episode of this boot that the record has used up. */
export const spentEpisode = (stage: Stage, batch: BatchState | null): number => {
  if (batch === null) return 0;
  return batch.consumed.boot === (stage.view.boot ?? batch.boot) ? batch.consumed.episode : 0;
};

const stopFor = (
  before: ScaleMemory,
  after: ScaleMemory,
  reading: MassReading,
  batch: BatchState | null,
  id: InstrumentId,
): StopMemory | null => {
  const { stop } = before;
  if (after.track.news === 'unit') return { why: 'unit-changed', was: before.lastLevel, emptied: false };
  if (stop !== null && stop.why === 'tare-pressed') return { ...stop, emptied: stop.emptied || isEmptied(stop, after) };
  const loaded = batch !== null && (batch.pans[id] !== undefined || before.stand !== null || isFilledOn(batch, id));
  if (stop === null && loaded && isTare(before, after, reading)) return { why: 'tare-pressed', was: before.track.level, emptied: false };
  return stop;
};

/** Jugs and moulds were set down empty here, to be filled. */
const isFilledOn = ({ status, pour }: BatchState, id: InstrumentId): boolean =>
  status === 'joined' && Object.values(pour.set).some((one) => one?.instrument === id);

/**
 * The reading jumped to zero from a settled weight within one frame. A lift comes down through the scale's own filter and shows it;
 * only the scale's own tare key does not.
 */
const isTare = (before: ScaleMemory, after: ScaleMemory, reading: MassReading): boolean => {
  const { track } = before;
  if (!track.stable || after.track.news !== 'next' || reading.mass === null) return false;
  const newest = track.masses.at(-1) ?? 0;
  const high = Math.abs(track.level) > 20 * track.division && Math.abs(newest - track.level) <= 2 * span(track);
  return high && Math.abs(reading.mass) <= 2 * track.division;
};

/** Since the tare key the pan has read about minus what stood on it: it has been free. */
const isEmptied = (stop: StopMemory, after: ScaleMemory): boolean => {
  const mass = after.track.masses.at(-1);
  if (stop.was === null || mass === undefined) return false;
  return Math.abs(mass - (after.empty - stop.was)) <= Math.max(5 * after.track.division, 0.05 * Math.abs(stop.was));
};

/** The scale's past counts for nothing; what it last said is kept to be compared. */
const stopped = (scale: ScaleMemory, why: StopMemory['why'], now: number, batch: BatchState | null): ScaleMemory => ({
  ...scale,
  track: restart(scale.track, now),
  window: null,
  stop: batch === null ? null : { why, was: scale.stop?.was ?? scale.lastLevel, emptied: false },
});

type Disarm = Extract<ConductorEvent, { kind: 'disarm' }>;

const disarm = (stage: Stage, event: Disarm, batch: BatchState | null): void => {
  const ids = event.instrument === null ? (Object.keys(stage.memory.scales) as InstrumentId[]) : [event.instrument];
  for (const id of ids) {
    const scale = stage.memory.scales[id];
    if (scale !== undefined) setScale(stage, id, afterDisarm(scale, event.why, stage.now, batch));
  }
  const { pour } = stage.memory;
  if (pour !== null && ids.includes(pour.instrument)) stage.memory.pour = { ...pour, offer: null };
};

/** After a stall, a clock step or a lost lease the scale itself went on: only the dwell begins anew. */
const afterDisarm = (scale: ScaleMemory, why: Disarm['why'], now: number, batch: BatchState | null): ScaleMemory => {
  if (why === 'stall' || why === 'clock' || why === 'lease') return { ...scale, track: restart(scale.track, now), window: null };
  return stopped(scale, why === 'unit' ? 'unit-changed' : 'disarmed', now, batch);
};
