import type { MaterialClass } from '#lib/work/batch/index';
import { bulgesIn, laidIn, outstanding, withBulge, type Bulge } from '#lib/measure/readings/bulge';
import { firstSince, span } from '#lib/measure/readings/settle';
import { stepIn, SUDDEN, type Step } from '#lib/measure/readings/step';
import type { DoubtReason } from '../cue';
import type { PourMemory, ScaleMemory } from './memory';

/**
 * Signs that something besides the material moved the weight. Only a person's "go on", or a new zero, clears a doubt.
 * What none of these can see: a spoon or cable that was there all along, something dropped into a running stream, two jars alike.
 */

/** Comes in pieces or spoonfuls: every portion is a step, so a step upwards says nothing. */
export const comesInPieces = (material: MaterialClass): boolean =>
  material === 'hard-oil' || material === 'milk' || material === 'acid' || material === 'additive' || material === 'colourant';

/** The pour with what the newest frame makes doubtful. `net` is the settled net, `null` while it moves. */
export const followDoubts = (
  pour: PourMemory,
  scale: ScaleMemory,
  line: { readonly tolerance: number; readonly pieces: boolean; readonly over: boolean; readonly within: boolean; readonly sign: 1 | -1 },
  net: number | null,
): PourMemory => {
  const { track } = scale;
  const found: DoubtReason[] = [];
  if (crossedGap(scale, line.tolerance)) found.push('gap');
  const sudden = followSteps(pour, scale, line.tolerance);
  const bulges = line.pieces ? pour.bulges : followBulges(pour, scale, line.tolerance);
  // What was asked about stays so, however the stream surges when it is taken up again.
  const steps = line.within ? withOutstanding(sudden, bulges, track) : sudden;
  for (const step of standingSteps(withOutstanding(steps, bulges, track), track.division)) {
    const up = step.size * line.sign > 0;
    if (up && !line.pieces && step.laid) found.push('step-up');
    if (!up) found.push('step-down');
  }
  if (net !== null && net < pour.highest - fallOf(scale, line.tolerance)) found.push('fell');
  const stood = momentOf(pour, track);
  const fall = fallOf(scale, line.tolerance);
  // Below what had settled it may come to rest where it was, and what a known step brought may go again.
  const sank = stood !== null && stood.most < pour.stood - fall && pour.stood - fall > pour.highest;
  if (sank && line.sign === 1 && steps.every(({ size }) => size < 0)) found.push('fell');
  if (line.over) found.push('was-over');
  if (!line.pieces && line.sign === 1 && outran(pour, track)) found.push('outran');
  const lasting = pour.doubts.filter((reason) => reason !== 'step-up' && reason !== 'step-down');
  const doubts = [...new Set([...lasting, ...found])];
  const highest = net === null ? pour.highest : Math.max(pour.highest, net);
  const most = stood === null ? pour.stood : Math.max(pour.stood, stood.least);
  const same = steps === pour.steps && bulges === pour.bulges && sameDoubts(doubts, pour.doubts);
  if (same && highest === pour.highest && most === pour.stood) return pour;
  return { ...pour, steps, bulges, doubts, highest, stood: most };
};

/** A pour only adds: what a reading has stood at for so long, settled or not, it never falls below by itself, ms. Knocks ring faster. */
const MOMENT_MS = 300;
const MOMENT_FRAMES = 3;

/** The least and the most of the newest moment, net; `null` while it is not whole. */
const momentOf = ({ zero, stepsFrom }: PourMemory, track: ScaleMemory['track']): { least: number; most: number } | null => {
  const now = track.times.at(-1) ?? 0;
  const count = Math.max(MOMENT_FRAMES, track.times.length - firstSince(track, now - MOMENT_MS));
  const from = track.times.at(-count);
  if (from === undefined || from < Math.max(track.dwellFrom, stepsFrom)) return null;
  const seen = track.masses.slice(-count);
  return { least: Math.min(...seen) - zero, most: Math.max(...seen) - zero };
};

/** So much below a settled weight is no noise and no draught. */
const fallOf = ({ track }: ScaleMemory, tolerance: number): number => Math.max(3 * track.division, 2 * span(track), 0.4 * tolerance);

/**
 * A reading below what had settled, with the vessel still there, is the scale's own tare key, a vessel changed in one movement or a hand
 * that lifts a little. Where it comes to rest at the same weight again nothing has happened; poured on, its zero counts for nothing.
 * A bottle is lifted to be poured from: what it reads then is asked of its return.
 */
export const followFall = (
  pour: PourMemory,
  scale: ScaleMemory,
  { tolerance, sign }: { readonly tolerance: number; readonly sign: 1 | -1 },
  net: number,
): PourMemory => {
  if (sign === -1) return pour;
  const { track } = scale;
  if (!track.stable) return pour.fallen || net >= pour.highest - fallOf(scale, tolerance) ? pour : { ...pour, fallen: true };
  if (!pour.fallen) return pour;
  const apart = Math.abs(track.level - pour.zero - pour.highest);
  const same = apart <= Math.max(2 * track.division, span(track)) || pour.doubts.includes('fell');
  return { ...pour, fallen: false, doubts: same ? pour.doubts : [...pour.doubts, 'fell'] };
};

const sameDoubts = (a: readonly DoubtReason[], b: readonly DoubtReason[]): boolean =>
  a.length === b.length && a.every((reason, index) => reason === b[index]);

/** A reading below this is too near to zero for a tare key to matter, in divisions. */
const HIGH = 20;

/**
 * More came between two frames than the vessel weighs: had somebody pressed the scale's own tare key just then, the reading would have gone
 * on rising all the same. A piece may well be heavier than its vessel; with it there is nothing to tell.
 */
const outran = ({ zero }: PourMemory, track: ScaleMemory['track']): boolean => {
  const [before, after] = track.masses.slice(-2);
  return before !== undefined && after !== undefined && track.news === 'next' && after - before > Math.max(zero, HIGH * track.division);
};

/** The weight changed while nobody was listening. */
const crossedGap = ({ track }: ScaleMemory, tolerance: number): boolean => {
  if (track.news !== 'gap' && track.news !== 'burst') return false;
  const before = track.masses.at(-2);
  const after = track.masses.at(-1);
  if (before === undefined || after === undefined) return false;
  return Math.abs(after - before) >= Math.max(2 * track.division, 0.5 * tolerance);
};

/** Pairs that took each other back are dropped from so many on; what still stands is kept. */
const STEPS_MANY = 8;

/** Adds the step in view, or keeps the larger of two sightings of one step. */
const followSteps = ({ steps, stepsFrom, highest, zero }: PourMemory, scale: ScaleMemory, tolerance: number): readonly Step[] => {
  const { track } = scale;
  const least = Math.max(3 * track.division, 0.8 * tolerance);
  const laid = laidIn(track, least, stepsFrom);
  const known =
    laid === null || isBack({ highest, zero }, track, least, laid.size)
      ? steps
      : withStep(steps, { ...laid, held: 1, laid: true, fell: false }, track);
  const seen = stepIn(track, least, stepsFrom);
  if (seen === null || (seen.held < SUDDEN && !takesBack(known, seen, track.division))) return known;
  return withStep(known, seen, track);
};

/** What only comes back to where it had settled was lifted a little, and is there again; set down on an empty pan it is another matter. */
const isBack = (
  { highest, zero }: Pick<PourMemory, 'highest' | 'zero'>,
  track: ScaleMemory['track'],
  least: number,
  size: number,
): boolean => (track.masses.at(-1) ?? zero) - zero <= highest + 0.5 * least && size < 0.5 * (zero + highest);

const followBulges = (pour: PourMemory, { track }: ScaleMemory, tolerance: number): readonly Bulge[] => {
  const least = Math.max(2 * track.division, 0.5 * tolerance);
  const seen = bulgesIn(track, least, pour.stepsFrom).filter(({ size }) => size < 0 || !isBack(pour, track, least, size));
  return seen.reduce((all, one) => withBulge(all, one, track, least), pour.bulges);
};

/** What stands out of the stream is a step, too, or says of one that it was laid in. */
const withOutstanding = (steps: readonly Step[], bulges: readonly Bulge[], track: ScaleMemory['track']): readonly Step[] => {
  const found = outstanding(bulges);
  if (found.length === 0) return steps;
  const all = found.reduce((list, { at, size, fell }) => withStep(list, { at, size, held: 1, laid: true, fell }, track), steps);
  return all.toSorted((a, b) => a.at - b.at);
};

const takesBack = (steps: readonly Step[], step: Step, division: number): boolean =>
  standingSteps([...steps, step], division).length < standingSteps(steps, division).length;

const withStep = (steps: readonly Step[], step: Step, track: ScaleMemory['track']): readonly Step[] => {
  const apart = 1.8 * track.rise + 1.5 * track.period;
  const same = steps.findLast((one) => Math.abs(step.at - one.at) < apart && one.size * step.size > 0);
  if (same === undefined) return [...(steps.length < STEPS_MANY ? steps : standingSteps(steps, track.division)), step];
  const laid = same.laid || step.laid;
  const fell = same.fell || step.fell;
  if (Math.abs(step.size) <= Math.abs(same.size) && laid === same.laid && fell === same.fell) return steps;
  const size = Math.abs(step.size) > Math.abs(same.size) ? step.size : same.size;
  return steps.map((one) => (one === same ? { ...one, size, laid, fell } : one));
};

/**
 * What is left when a step up and an equal one down again have taken each other back: whatever leaned has gone, and the reading fell with
 * it. What only thins a stream, or stands still between a spoon and the stream, takes nothing out, and is not taken back by its beginning.
 */
const standingSteps = (steps: readonly Step[], division: number): readonly Step[] => {
  const standing: Step[] = [];
  for (const step of steps) {
    const back = standing.findLastIndex(
      (one) =>
        one.size * step.size < 0 &&
        Math.abs(one.size + step.size) <= Math.max(3 * division, 0.2 * Math.abs(one.size)) &&
        (one.size < 0 || (step.fell && (one.laid || !step.laid))),
    );
    if (back === -1) standing.push(step);
    else standing.splice(back, 1);
  }
  return standing;
};
