import { as } from '#lib/units/id';
import type { BatchId, BootId, EntryId, InstrumentId, LineId, LotId, PersonId, VesselId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import { grams, mg } from '#lib/units/mass';
import { celsius } from '#lib/units/temperature';
import { PRECAUTIONS, decide, evolve, toEntry } from '#lib/work/batch/index';
import type {
  BatchState,
  Command,
  CommandBodies,
  CommandHead,
  CommandKind,
  Decision,
  Draft,
  Entry,
  LinePlan,
  Observation,
  Plan,
  Weighed,
} from '#lib/work/batch/index';
import { mouldsIn } from '#lib/work/batch/pouring/places';
import { SAMPLE_PLANS } from '#lib/work/formula/sample';

export const lineId = (id: string): LineId => as(id);
export const vesselId = (id: string): VesselId => as(id);
export const MAIN = as<InstrumentId>('scale-main');
export const FINE = as<InstrumentId>('scale-fine');

/** A plan of the workshop with the first lot of each line chosen. */
export const planOf = (id: string): Plan => {
  const sample = SAMPLE_PLANS.find((one) => one.id === id);
  if (sample === undefined) throw new Error(`no sample plan ${id}`);
  const lines = sample.plan.lines.map((line): LinePlan => {
    const [lot] = sample.lots[line.id] ?? [];
    return lot === undefined ? line : { ...line, lot: { id: as<LotId>(lot.id), mark: lot.mark } };
  });
  return { ...sample.plan, lines };
};

export const changed = (plan: Plan, id: string, change: Partial<LinePlan>): Plan => ({
  ...plan,
  lines: plan.lines.map((line) => (line.id === id ? { ...line, ...change } : line)),
});

/** One batch at one bench: sends commands, keeps what was entered, and stands in for the server's own ring. */
export class BatchRig {
  state: BatchState | null = null;
  readonly entries: Entry[] = [];
  boot = as<BootId>('boot-1');
  episode = 0;
  mono = 1_000;
  lye: Observation['lye'] = null;
  oils: Observation['oils'] = null;
  more: Partial<Observation> = {};
  /** What was last seen settled on a scale, and has not been lifted since. */
  stands: Observation['settled'] = null;

  command<K extends CommandKind>(kind: K, body: CommandBodies[K], head: Partial<CommandHead> = {}): Command {
    this.mono += 10;
    const full: CommandHead = {
      batch: this.state?.id ?? as<BatchId>('batch-1'),
      expectedVersion: null,
      by: as<PersonId>('person-1'),
      via: 'screen',
      role: 'maker',
      intent: null,
      boot: this.boot,
      mono: this.mono,
      wall: 1_760_000_000_000 + this.mono,
      offsetMin: 120,
      observation: this.seen(this.stands),
      ...head,
    };
    return { ...full, kind, body } as unknown as Command;
  }

  /** Decides and, when allowed, enters. */
  send<K extends CommandKind>(kind: K, body: CommandBodies[K], head: Partial<CommandHead> = {}): Decision {
    const command = this.command(kind, body, head);
    const decision = decide(this.state, command);
    if (decision.ok) for (const draft of decision.drafts) this.enter(draft, command);
    return decision;
  }

  /** As `send`; a refusal fails the test here, with its code. */
  must<K extends CommandKind>(kind: K, body: CommandBodies[K], head: Partial<CommandHead> = {}): readonly Entry[] {
    const before = this.entries.length;
    const decision = this.send(kind, body, head);
    if (!decision.ok) throw new Error(`${kind} was refused: ${decision.refusal.code} ${JSON.stringify(decision.refusal.params)}`);
    return this.entries.slice(before);
  }

  /** The code of a refusal; the kinds that were entered otherwise. */
  code<K extends CommandKind>(kind: K, body: CommandBodies[K], head: Partial<CommandHead> = {}): string {
    const decision = this.send(kind, body, head);
    return decision.ok ? decision.drafts.map((draft) => draft.kind).join(' ') : decision.refusal.code;
  }

  private enter(draft: Parameters<typeof toEntry>[0], command: Command): void {
    const { batch, by, via, intent, boot, mono, wall, offsetMin } = command;
    const realm = command.kind === 'start' ? command.body.realm : (this.state?.realm ?? 'test');
    const version = (this.state?.version ?? 0) + 1;
    const id = as<EntryId>(`entry-${version}`);
    const entry = toEntry(draft, { id, batch, version, realm, v: 1, by, via, intent, boot, mono, wall, offsetMin });
    this.entries.push(entry);
    this.state = evolve(this.state, entry);
  }

  /** An entry as a record may hold it, whatever would be decided today. */
  enterAs<K extends Draft['kind']>(kind: K, body: Extract<Draft, { kind: K }>['body'], head: Partial<CommandHead> = {}): void {
    this.enter({ kind, body } as Draft, this.command('note', { text: '' }, head));
  }

  get now(): BatchState {
    if (this.state === null) throw new Error('no batch has started');
    return this.state;
  }

  line(id: string) {
    const line = this.now.lines[lineId(id)];
    if (line === undefined) throw new Error(`no line ${id}`);
    return line;
  }

  vessel(id: string) {
    const vessel = this.now.vessels[vesselId(id)];
    if (vessel === undefined) throw new Error(`no vessel ${id}`);
    return vessel;
  }

  start(plan: Plan = planOf('alder-and-oat'), cleaned?: readonly string[]): this {
    this.must('start', { mark: '26-11', plan, realm: 'test', bench: 'bench 1', ...(cleaned === undefined ? {} : { cleaned }) });
    return this;
  }

  /** The scale a line's plan asks for. */
  scaleOf(id: string): InstrumentId {
    return this.line(id).plan.scale === 'main' ? MAIN : FINE;
  }

  /** A settled weight of a new episode, as the server's ring has it. */
  settle(instrument: InstrumentId, gross: Milligrams): NonNullable<Observation['settled']> {
    this.episode += 1;
    return { instrument, gross, episode: this.episode };
  }

  seen(settled: Observation['settled'], more: Partial<Observation> = {}): Observation {
    return { settled, lye: this.lye, oils: this.oils, milk: null, checks: {}, ...this.more, ...more };
  }

  setVessel(id: string, grossGrams?: number, vessel?: string, head: Partial<CommandHead> = {}): Decision {
    const plan = this.line(id).plan;
    const name = vesselId(vessel ?? plan.vessel);
    const held = this.now.vessels[name];
    const gross = grossGrams === undefined ? (held?.standing?.gross ?? mg((held?.empty ?? 0) + (held?.contents ?? 0))) : grams(grossGrams);
    const settled = this.settle(this.scaleOf(id), gross);
    this.stands = settled;
    return this.send(
      'set-vessel',
      { line: lineId(id), vessel: name, instrument: settled.instrument, gross, episode: settled.episode },
      { observation: this.seen(settled), ...head },
    );
  }

  /** What the scale says `netGrams` after the zero of the line's pan. */
  weighed(id: string, netGrams: number, step: Milligrams = mg(100)): Weighed {
    const instrument = this.scaleOf(id);
    const zero = this.now.pans[instrument]?.zero ?? mg(0);
    const sign = this.line(id).plan.mode === 'loss' ? -1 : 1;
    const net = grams(netGrams);
    const settled = this.settle(instrument, mg(zero + sign * net));
    const text = (settled.gross / 1000).toFixed(1);
    return {
      gross: settled.gross,
      zero,
      net,
      text,
      unit: 'g',
      step,
      raw: '',
      instrument,
      check: null,
      episode: settled.episode,
      strip: null,
    };
  }

  accept(id: string, netGrams: number, body: Partial<CommandBodies['accept']> = {}, head: Partial<CommandHead> = {}): Decision {
    const weighed = body.weighed ?? this.weighed(id, netGrams);
    const vessel = this.now.pans[weighed.instrument]?.vessel ?? this.line(id).plan.vessel;
    const settled = { instrument: weighed.instrument, gross: weighed.gross, episode: weighed.episode };
    this.stands = settled;
    return this.send(
      'accept',
      { line: lineId(id), vessel, weighed, how: 'go-on', part: false, shortIsFine: false, ...body },
      { observation: this.seen(settled), ...head },
    );
  }

  /** The over-pour stays in: carried on, and where that would be lye-heavy, as older records have it. */
  keepOver(): void {
    const { over } = this.now;
    if (over === null) return;
    const { line, by, red } = over;
    if (this.code('answer-over', { line, choice: 'carry-on', held: true }) !== 'lye-heavy') return;
    this.enterAs('over-answered', { line, choice: 'carry-on', over: by, red });
    this.enterAs('alarm-ended', { code: red ? 'over-pour-red' : 'over-pour' });
    this.enterAs('line-closed', { line, outcome: 'over', actual: this.line(line).actual });
  }

  lift(id: string): Decision {
    this.stands = null;
    const vessel = this.line(id).plan.vessel;
    return this.send('lift', { vessel, gross: this.vessel(vessel).standing?.gross ?? mg(0) });
  }

  gate(id: string): void {
    this.must('confirm-gate', { gate: 'hydroxide', line: lineId(id), items: PRECAUTIONS.hydroxide, held: true });
  }

  /** Weighs one line to its target, whatever it needs before. */
  weigh(id: string, netGrams?: number): Decision {
    const { plan } = this.line(id);
    const hydroxide = plan.material.class === 'hydroxide';
    if (hydroxide && this.now.gateLines[plan.id] === undefined) this.gate(id);
    const pan = this.now.pans[this.scaleOf(id)];
    if (pan?.line !== plan.id) {
      const set = this.setVessel(id);
      if (!set.ok) return set;
    }
    return this.accept(id, netGrams ?? (plan.target - this.line(id).actual) / 1000, { how: hydroxide ? 'held' : 'go-on' });
  }

  /** Weighs every line that is due, lifting each vessel, up to `until`. */
  weighAll(until?: string): this {
    for (let open = this.now.open; open !== null && open !== until; open = this.now.open) {
      const done = this.weigh(open);
      if (!done.ok) throw new Error(`${open}: ${done.refusal.code} ${JSON.stringify(done.refusal.params)}`);
      const next = this.now.open;
      if (next === null || this.line(next).plan.vessel !== this.line(open).plan.vessel) this.lift(open);
    }
    return this;
  }

  makeLye(): this {
    this.must('confirm-gate', { gate: 'cold-liquid', line: null, items: PRECAUTIONS['cold-liquid'], held: true });
    const of = (use: string) => Object.values(this.now.vessels).find(({ plan }) => plan.use === use)?.plan.id ?? vesselId('');
    this.must('dissolve', { vessel: of('hydroxide'), into: of('liquid'), held: true });
    return this;
  }

  join(): this {
    this.lye = celsius(41);
    this.oils = celsius(42);
    // A mould without a pattern holds joining.
    for (const { n, pattern } of mouldsIn(this.now)) if (pattern === null) this.must('name-pattern', { mould: n, pattern: 'plain-pour' });
    this.must('join', { held: true });
    return this;
  }
}

export const started = (plan?: Plan): BatchRig => new BatchRig().start(plan);
