import { settledFrame } from '#lib/measure/readings/settle';
import type { InstrumentId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import type { VesselState } from '#lib/work/batch/index';
import { nextPortion, portionName } from '#lib/work/batch/portion-name';
import type { ScaleView } from '../conductor-types';
import { weighedFrom } from './accept';
import { hindrance } from './hinder';
import type { PortionMemory, ScaleMemory } from './memory';
import { probeLeans } from './probe';
import { recognisedWithin, setScale, within, type Scene, type Scenery, type Words } from './stage';
import { isLoaded, threshold } from './zero';

/**
 * The batter goes into the moulds, and each portion is what its pot has lost since the pot last stood there settled. That zero is never
 * kept across anything that makes a gross weight doubtful: the pot is set down anew, and what was poured meanwhile is typed. A portion is
 * a person's to take, never the program's: a spoon taken out, or a scraper put in, weighs too.
 */
export const portionsScene = (stage: Scenery): Scene => {
  const pot = batterPot(stage);
  if (pot === null) return { phase: 'pouring-moulds' };
  const known = stage.memory.portion;
  const view = stage.view.scales.find(({ id }) => id === known?.instrument) ?? standsOn(stage, pot) ?? stage.view.scales[0];
  if (view === undefined) return { phase: 'pouring-moulds' };
  const at = { phase: 'pouring-moulds', vessel: pot.plan.id, instrument: view.id } as const;
  const scale = stage.memory.scales[view.id];
  const hindered = hindrance(stage, view, scale ?? null);
  if (scale === undefined || (hindered !== null && hindered !== 'late')) return hinderedScene(stage, view, hindered ?? 'lost', at);
  return { ...at, ...standing(stage, pot, view, scale) };
};

const batterPot = ({ batch }: Scenery): VesselState | null =>
  Object.values(batch.vessels).find(({ state }) => state === 'joined' || state === 'portioned') ?? null;

/** Something as heavy as the empty pot at least; what it holds shows in no other way. */
const maybePot = (pot: VesselState, scale: ScaleMemory): boolean =>
  isLoaded(scale, pot.empty) && scale.track.level - scale.empty >= (pot.empty ?? 0) - recognisedWithin(scale);

const standsOn = (stage: Scenery, pot: VesselState): ScaleView | undefined =>
  stage.view.scales.find(({ id }) => {
    const scale = stage.memory.scales[id];
    return scale !== undefined && scale.track.stable && maybePot(pot, scale);
  });

/** Where the pan's past counts for nothing any more, only the zero hangs on it here: it goes, and nobody has to say anything. */
const hinderedScene = (stage: Scenery, view: ScaleView, block: NonNullable<Scene['block']>, at: Scene): Scene => {
  const stopped = stage.memory.scales[view.id]?.stop != null;
  if (stopped || block === 'lost') stage.memory.portion = null;
  if (stopped) setScale(stage, view.id, { stop: null });
  return { ...at, portion: { at: block === 'overload' ? 'too-heavy' : 'no-scale', mass: null } };
};

/** What it should read now: less by what left the pot in the record since, portions and spills alike. */
const zeroNow = ({ zero, contents }: PortionMemory, pot: VesselState): number => zero + (pot.contents - contents);

const zeroAt = (instrument: InstrumentId, pot: VesselState, scale: ScaleMemory): PortionMemory => ({
  instrument,
  zero: settledFrame(scale.track)?.gross ?? scale.track.level,
  contents: pot.contents,
});

const standing = (stage: Scenery, pot: VesselState, view: ScaleView, scale: ScaleMemory): Partial<Scene> => {
  const known = stage.memory.portion;
  const settled = scale.track.stable && scale.window !== null;
  if (!isLoaded(scale, pot.empty)) return { portion: { at: known === null ? 'set-pot' : 'off', mass: null }, say: sayOf(known, pot, view) };
  if (!settled) return { portion: { at: known === null ? 'settling' : 'moving', mass: null } };
  if (!maybePot(pot, scale)) return { portion: { at: 'strange', mass: null } };
  if (probeLeans(stage, pot.plan)) return { portion: { at: 'probe', mass: null } };
  const lost = known === null ? 0 : zeroNow(known, pot) - scale.track.level;
  const fromHere = (): void => {
    stage.memory.portion = zeroAt(view.id, pot, scale);
  };
  if (known === null) {
    fromHere();
    return { portion: { at: 'stands', mass: null } };
  }
  // Something was put in, or a portion was typed before it was poured: only a person knows.
  if (lost < -within(scale)) return { portion: { at: 'more', mass: null }, goOn: { code: 'count-from-here', hold: false, act: fromHere } };
  return lost <= threshold(scale, null) ? { portion: { at: 'stands', mass: null } } : offer(stage, pot, view, scale, known, fromHere);
};

const sayOf = (known: PortionMemory | null, pot: VesselState, view: ScaleView): Words | null =>
  known === null ? { key: `portions ${pot.plan.id}`, code: 'set-down', params: { vessel: pot.plan.name, scale: view.role } } : null;

const offer = (
  stage: Scenery,
  pot: VesselState,
  view: ScaleView,
  scale: ScaleMemory,
  known: PortionMemory,
  back: () => void,
): Partial<Scene> => {
  const zero = mg(Math.round(zeroNow(known, pot)));
  const weighed = weighedFrom(stage.batch, view.id, scale, zero, -1);
  if (weighed === null || weighed.net <= 0) return { portion: { at: 'moving', mass: null } };
  const number = nextPortion(stage.batch.parts);
  const parts = [{ name: portionName(number), mass: weighed.net }];
  const take = (): void => void stage.wants.push({ kind: 'split', body: { vessel: pot.plan.id, parts, weighed } });
  return {
    portion: { at: 'offer', mass: weighed.net },
    goOn: { code: 'take-portion', hold: false, act: take },
    back,
    say: { key: `portion ${number} ${weighed.episode}`, code: 'portion', params: { number, net: weighed.net } },
  };
};
