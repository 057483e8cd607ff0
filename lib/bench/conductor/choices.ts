import type { BatchState, LineState } from '#lib/work/batch/index';
import type { CardCode, PourCardCode } from '../codes';
import { wantAccept } from './accept';
import type { PourMemory, ScaleMemory } from './memory';
import type { Choice, Scenery } from './stage';

type Params = Readonly<Record<string, string | number>>;

/** A card that can be taken. */
export const choice = (code: CardCode | PourCardCode, params: Params, hold: boolean, take: () => void): Choice => ({
  card: { code, params, hold, enabled: true, why: null },
  take,
});

/** A card drawn dashed, with the reason it cannot be taken; `null`: its own words say it. */
export const closedChoice = (code: CardCode, params: Params, why: string | null): Choice => ({
  card: { code, params, hold: true, enabled: false, why },
  take: () => undefined,
});

/** Half of the greatest effect a gram has on any line is where an error matters most. */
const MATTERS = 0.5;

/** Whose error matters most: by superfat per gram where the plan states it, hydroxide where it does not. */
export const mattersMost = (batch: BatchState, line: LineState): boolean => {
  const effects = batch.order.map((id) => Math.abs(batch.lines[id]?.plan.superfatPerGram ?? 0));
  const most = Math.max(0, ...effects);
  if (most === 0) return line.plan.material.class === 'hydroxide';
  return Math.abs(line.plan.superfatPerGram ?? 0) >= MATTERS * most;
};

/**
 * "Free the vessel, lift it, set it down again": the only way to find a spoon, a cable or a hand that was there all along. Offered
 * where an error would matter most, taken without a hold because it takes nothing.
 */
export const liftCheck = (stage: Scenery, line: LineState, scale: ScaleMemory, pour: PourMemory): readonly Choice[] =>
  mattersMost(stage.batch, line)
    ? [
        choice('lift-check', {}, false, () => {
          stage.memory.pour = { ...pour, offer: null, check: scale.track.level };
        }),
      ]
    : [];

export const partPour = (stage: Scenery, line: LineState, scale: ScaleMemory, pour: PourMemory, net: number): Choice => {
  const hydroxide = line.plan.material.class === 'hydroxide';
  return choice('part-pour', { net: Math.round(net) }, hydroxide, () =>
    wantAccept(stage, { line, pour, scale, how: hydroxide ? 'held' : 'go-on', part: true }),
  );
};
