import type { BarsCue } from '#lib/bench/bars/types';
import type { BenchCue, BlockReason, CuePhase, PortionCue } from '#lib/bench/cue';
import type { ScaleRole } from '#lib/measure/instrument';
import type { InstrumentId } from '#lib/units/id';
import { sumOfAll } from '#lib/units/sum';
import type { BatchState, VesselState, WeighMode } from '#lib/work/batch/index';
import { barsHint, type BarsHint } from './bars';
import { jobHint, potStill, pourShelf, stirredIn, type JobHint } from './pour-hint';
import type { ShelfVessel } from './shelf-vessel';

/** What the simulated maker knows of the bench: what a real one would see on the screen. Masses in mg. */
export interface SceneHint {
  readonly batch: string | null;
  readonly phase: CuePhase;
  /** The scale the open line is on. */
  readonly role: ScaleRole | null;
  /** Id of the vessel it goes into, or out of. */
  readonly vessel: string | null;
  /** Id of the vessel that what this one holds is carried over into, when the plan says one. */
  readonly into: string | null;
  readonly shelf: readonly ShelfVessel[];
  readonly mode: WeighMode;
  readonly left: number | null;
  readonly target: number | null;
  readonly tolerance: number | null;
  readonly easeOff: boolean;
  readonly overshoot: number | null;
  readonly block: BlockReason | null;
  /** The line's newest weight was crossed out: what is too much has to come out again. */
  readonly crossedOut: boolean;
  /** Both vessels should come into this, thousandths of a degree. */
  readonly window: { readonly low: number; readonly high: number } | null;
  /** How far the next portion of the batter is; left out while none is weighed. */
  readonly portion?: PortionCue['at'] | undefined;
  /** What is done with the batter, where the plan has moulds. */
  readonly job?: JobHint | null;
  /** Bars are weighed. */
  readonly bars?: BarsHint | null;
  /** Cups that are stirred in by now, and into what. */
  readonly stirred?: readonly { readonly from: string; readonly into: string }[];
  /** The record says that hydroxide went into the liquid. */
  readonly dissolved: boolean;
  /** The lye is a stock lye: it comes as cold as the room. */
  readonly stock: boolean;
  /** The record says that the halves were poured together: which vessels went into which, by mass. `null`: they were not. */
  readonly joined: JoinedHint | null;
}

export interface JoinedHint {
  readonly into: string;
  readonly from: readonly { readonly id: string; readonly mass: number }[];
}

/** The hint that a cue gives, with what plan and record say beside it. */
export const hintOf = (
  cue: BenchCue,
  batch: BatchState | null,
  scales: readonly { readonly id: InstrumentId; readonly role: ScaleRole }[],
  bars: BarsCue | null = null,
): SceneHint => {
  const ofBars = barsHint(bars, scales);
  const state = batch === null || cue.line === null ? null : (batch.lines[cue.line] ?? null);
  const line = state?.plan ?? null;
  const lines = batch === null ? [] : Object.values(batch.lines);
  const vessels = batch === null ? [] : Object.values(batch.vessels);
  return {
    batch: batch?.id ?? null,
    phase: cue.phase,
    role: scales.find(({ id }) => id === cue.instrument)?.role ?? line?.scale ?? null,
    vessel: cue.vessel,
    into: lines.find(({ plan }) => plan.vessel === cue.vessel && plan.into !== undefined)?.plan.into ?? null,
    bars: ofBars,
    shelf: [
      ...(ofBars === null ? [] : [ofBars.bar]),
      ...pourShelf(batch),
      ...vessels.map(({ plan, contents, empty, state }) => ({
        id: plan.id,
        name: plan.name,
        use: plan.use,
        empty: empty ?? plan.empty,
        contents: batch !== null && (state === 'joined' || state === 'portioned') ? potStill(batch, contents) : contents,
      })),
    ],
    job: batch === null ? null : jobHint(cue, batch),
    stirred: batch === null ? [] : stirredIn(batch),
    mode: line?.mode ?? 'gain',
    left: cue.left,
    // Of the whole line: a bottle is fetched with enough for all its parts.
    target: line?.target ?? cue.target,
    tolerance: cue.tolerance,
    easeOff: cue.easeOff,
    overshoot: cue.overshoot,
    block: cue.block,
    crossedOut: (state?.contributions.at(-1)?.struck ?? null) !== null,
    window: batch?.plan.joining.window ?? null,
    portion: cue.portion?.at,
    dissolved: vessels.some(({ state }) => ['dissolved', 'joined', 'portioned'].includes(state)),
    stock: lines.some(({ plan }) => plan.inSolution === true),
    joined: joinedHint(batch),
  };
};

const joinedHint = (batch: BatchState | null): JoinedHint | null => {
  const vessels = Object.values(batch?.vessels ?? {});
  const into = vessels.find(({ state }) => state === 'joined' || state === 'portioned')?.plan.id;
  if (into === undefined || batch?.joined == null) return null;
  const from = vessels.filter(({ deliveredTo }) => deliveredTo === into);
  return { into, from: from.map(({ plan, delivered }) => ({ id: plan.id, mass: sumOf(delivered) })) };
};

const sumOf = (held: VesselState['delivered']): number => sumOfAll(Object.values(held));
