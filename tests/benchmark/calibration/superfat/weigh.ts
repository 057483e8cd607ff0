import { as, type EntryId, type InstrumentId, type LineId } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import type { BatchState, Weighed } from '#lib/work/batch/index';
import { BatchRig, FINE, MAIN } from '#tests/support/batch';
import type { Random } from '../random';
import type { Job } from './workshop';
import { gainOf, trueScale, trueSuperfat, type TrueScale } from './truth';

/** A batch as far as it was weighed, and the superfat that it truly has, what is still to come included. */
export interface Simulated {
  readonly state: BatchState;
  readonly superfat: number;
}

/** Masses truly in each vessel, by line, mg. */
type Contents = Map<string, Map<string, number>>;

const CHECK = as<EntryId>('earlier');
/** A scale nobody knows, that a person reads and types from. */
const STRANGE = { division: 1000, gain: 0.002, noise: 100 } as const;

class Bench {
  readonly rig: BatchRig;
  readonly random: Random;
  readonly inside: Contents = new Map();
  private readonly scales: Readonly<Record<string, TrueScale>>;
  private readonly checked: Readonly<Record<string, boolean>>;

  constructor(job: Job, random: Random) {
    this.random = random;
    this.rig = new BatchRig().start(job.plan);
    const known = job.plan.basis?.poured?.scales ?? [];
    const scaleOf = (id: InstrumentId, checked: boolean): TrueScale => {
      const basis = known.find(({ instrument }) => instrument === id);
      const division = basis?.division ?? 100;
      // A measured spread is of a weighing: two readings. Where nobody measured, it is below what the display tells.
      const spread = basis?.repeatability ?? null;
      const noise =
        spread === null ? random.between(0, 0.15) * division : Math.sqrt(Math.max(0, Number(spread) ** 2 / 2 - division ** 2 / 12));
      return trueScale(random, division, gainOf(random, checked), noise);
    };
    this.checked = { [MAIN]: random.chance(0.3), [FINE]: random.chance(0.3) };
    this.scales = { [MAIN]: scaleOf(MAIN, this.checked[MAIN] === true), [FINE]: scaleOf(FINE, this.checked[FINE] === true) };
  }

  private scale(id: InstrumentId): TrueScale {
    const found = this.scales[id];
    if (found === undefined) throw new Error(id);
    return found;
  }

  /** What truly stands on the pan with a vessel. Its own mass is what it was once weighed as, give or take. */
  private load(vessel: string): number {
    const held = [...(this.inside.get(vessel) ?? [])].reduce((sum, [, mass]) => sum + mass, 0);
    return (this.rig.now.vessels[vessel as keyof BatchState['vessels']]?.plan.empty ?? 200_000) + held;
  }

  private pour(vessel: string, line: string, mass: number): void {
    const of = this.inside.get(vessel) ?? new Map<string, number>();
    of.set(line, (of.get(line) ?? 0) + mass);
    this.inside.set(vessel, of);
  }

  /** On a known mass, with nothing on the pan. */
  checkScale(id: InstrumentId, nominal: number): void {
    const shown = this.scale(id).read(nominal);
    const settled = this.rig.settle(id, mg(shown));
    this.rig.send('check-scale', { instrument: id, nominal: mg(nominal) }, { observation: this.rig.seen(settled) });
  }

  private weighed(id: InstrumentId, zero: number, gross: number): Weighed {
    const settled = this.rig.settle(id, mg(gross));
    this.rig.stands = settled;
    return {
      gross: settled.gross,
      zero: mg(zero),
      net: mg(gross - zero),
      text: (gross / 1000).toFixed(1),
      unit: 'g',
      raw: '',
      strip: null,
      step: mg(this.scale(id).division),
      instrument: id,
      check: this.checked[id] === true ? CHECK : null,
      episode: settled.episode,
    };
  }

  /** One line to its target on its scale, in one or two parts, now and then well over it. */
  weigh(id: LineId): void {
    const { rig, random } = this;
    const { plan } = rig.line(id);
    const instrument = rig.scaleOf(id);
    const hydroxide = plan.material.class === 'hydroxide';
    if (hydroxide && rig.now.gateLines[id] === undefined) rig.gate(id);
    // A question comes in place of the vessel: it is set down again then.
    for (let tries = 0; rig.now.pans[instrument]?.line !== id && tries < 3; tries += 1) {
      const set = rig.setVessel(id, this.scale(instrument).read(this.load(plan.vessel)) / 1000);
      if (!set.ok) throw new Error(`${id}: ${set.refusal.code}`);
      this.vouch();
    }
    const aim = plan.target * (random.chance(0.08) ? random.between(1.005, 1.04) : 1) + plan.tolerance * random.between(-0.7, 0.9);
    const parts = random.chance(0.15) ? [0.5, 0.5] : [1];
    const before = rig.line(id).actual;
    for (const [at, part] of parts.entries()) {
      if (rig.now.open === id && rig.now.over === null)
        this.accept(id, instrument, (aim - before) * part, hydroxide, at < parts.length - 1);
    }
    this.rig.keepOver();
  }

  private accept(id: LineId, instrument: InstrumentId, mass: number, hydroxide: boolean, part: boolean): void {
    const { rig } = this;
    const { plan } = rig.line(id);
    this.pour(plan.vessel, id, mass);
    const zero = rig.now.pans[instrument]?.zero ?? 0;
    const scale = this.scale(instrument);
    let shown = scale.read(this.load(plan.vessel));
    // Nothing shows yet: a little more.
    for (; shown <= zero; shown = scale.read(this.load(plan.vessel))) this.pour(plan.vessel, id, scale.division / 2);
    const weighed = this.weighed(instrument, zero, shown);
    const done = rig.accept(id, 0, { weighed, how: hydroxide ? 'held' : 'go-on', part, shortIsFine: !part });
    if (!done.ok) throw new Error(`${id}: ${done.refusal.code} ${JSON.stringify(done.refusal.params)}`);
  }

  /** A vessel that came back a division lighter is asked about: a person says that the weight was right. */
  private vouch(): void {
    const asked = this.rig.now.question;
    if (asked !== null) this.rig.must('answer-question', { entry: asked.entry, answer: 'keep', held: true });
  }

  /** Off the pan, where it stands on one. */
  lift(id: LineId): void {
    const { vessel } = this.rig.line(id).plan;
    if (Object.values(this.rig.now.pans).some((pan) => pan.vessel === vessel)) this.rig.lift(id);
    this.vouch();
  }

  /** Read by a person from another scale. */
  type(id: LineId): void {
    const { rig, random } = this;
    const { plan } = rig.line(id);
    this.lift(id);
    if (plan.material.class === 'hydroxide' && rig.now.gateLines[id] === undefined) rig.gate(id);
    const other = trueScale(random, STRANGE.division, STRANGE.gain * random.gauss(), STRANGE.noise);
    const mass = Math.max(0, plan.target - rig.line(id).actual + plan.tolerance * random.between(-0.5, 0.5));
    this.pour(plan.vessel, id, mass);
    const net = Math.max(STRANGE.division, other.read(this.load(plan.vessel)) - other.read(this.load(plan.vessel) - mass));
    rig.must('type-weight', {
      line: id,
      typed: { net: mg(net), text: (net / 1000).toFixed(0), unit: 'g' },
      readBack: true,
      part: false,
      held: true,
      shortIsFine: true,
    });
    this.rig.keepOver();
  }

  /** Some of what is in a vessel is spilt; a person says about how much. */
  spill(vessel: string): void {
    const of = this.inside.get(vessel);
    const held = this.rig.now.vessels[vessel as keyof BatchState['vessels']];
    if (of === undefined || held === undefined || held.contents < 20_000) return;
    const said = grams(Math.round(this.random.between(0.005, 0.03) * (held.contents / 1000)));
    if (said <= 0) return;
    const truly = (said * (1 + 0.2 * this.random.gauss())) / held.contents;
    for (const [line, mass] of of) of.set(line, mass * (1 - truly));
    this.rig.must('lose', { vessel: held.plan.id, mass: said, cause: 'spill', note: '' });
  }

  /** What is truly in of a line, g; what is still to come ends somewhere within its tolerance, by the same scale. */
  truly(id: LineId): number {
    const { rig, random } = this;
    const inside = [...this.inside.values()].reduce((sum, of) => sum + (of.get(id) ?? 0), 0);
    const { plan, status, actual } = rig.line(id);
    const left = status === 'closed' ? 0 : Math.max(0, plan.target - actual);
    if (left === 0) return inside / 1000;
    const shown = left + plan.tolerance * random.between(-1, 1);
    return (inside + shown / (1 + this.scale(rig.scaleOf(id)).gain)) / 1000;
  }
}

/** One batch: weighed wholly or in part, cumulatively or vessel by vessel, some of it by hand, some spilt. */
export const simulate = (job: Job, random: Random): Simulated => {
  const bench = new Bench(job, random);
  const { rig } = bench;
  for (const id of [MAIN, FINE]) if (random.chance(0.3)) bench.checkScale(id, 500_000);
  const stopsAt = random.chance(0.2) ? random.pick(job.plan.lines as unknown as [Job['plan']['lines'][number]]).id : null;
  for (let open = rig.now.open, turn = 0; open !== null && open !== stopsAt && turn < 40; open = rig.now.open, turn += 1) {
    const { vessel } = rig.line(open).plan;
    if (random.chance(0.06)) bench.type(open);
    else bench.weigh(open);
    if (rig.now.open === open) break;
    const spilt = turn < 20 && random.chance(0.04);
    const next = rig.now.open;
    const stays = next !== null && rig.line(next).plan.vessel === vessel;
    if (!stays || spilt || random.chance(0.2)) bench.lift(open);
    if (spilt) bench.spill(vessel);
  }
  const fats = [...job.sv].map(([id, sv]) => ({ grams: bench.truly(as<LineId>(id)), sv }));
  const superfat = trueSuperfat(fats, { grams: bench.truly(as<LineId>('soda')), purity: job.purity });
  return { state: rig.now, superfat };
};
