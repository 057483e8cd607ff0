import type { BenchParts } from '#lib/bench/pipeline/index';
import type { ScaleRole } from '#lib/measure/instrument';
import type { BenchIntent, IntentWant } from '#lib/protocol/intent';
import type { LiveFrame } from '#lib/protocol/live';
import { as } from '#lib/units/id';
import type { BatchId, InstrumentId } from '#lib/units/id';
import { celsius } from '#lib/units/temperature';
import { decide } from '#lib/work/batch/index';
import type { BatchState } from '#lib/work/batch/index';
import { startBoot } from '#tests/support/model/boot';
import type { ModelBoot } from '#tests/support/model/boot';
import { bootClock, modelTime } from '#tests/support/model/clock';
import { chance } from '#tests/support/model/chance';
import { DiskFull, ModelDisk } from '#tests/support/model/journal';
import { MODEL_PLANS } from '#tests/support/model/plans';
import { createModelScreen } from '#tests/support/model/screen';
import type { ModelScreen } from '#tests/support/model/screen';
import { modelConfigs, ModelWorld } from '#tests/support/model/world';
import type { Seen, Story, Times, Which } from './actions';
import { frameFaults } from './frames';
import { acceptKey, Happened } from './happened';
import type { Standing } from './happened';

const ROLES = ['main', 'fine'] as const satisfies readonly ScaleRole[];
/** Less than the standstill a loop is noticed by. */
const TICK_MS = 200;
const BEAT_MS = 1_000;
const VALID_MS = 3_000;
const settled = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** What a screen had before it when it last looked. */
interface View {
  readonly boot: string;
  readonly batch: BatchState | null;
  readonly cue: LiveFrame['cue'];
}

/** A frame and what truly stood there when the scale made it. */
interface Measured {
  readonly reading: ReturnType<ModelWorld['read']>;
  readonly stood: Omit<Standing, 'heard'>;
}

/** The rules under test; the guard's own test hands in others. */
export type Rules = NonNullable<BenchParts['decide']>;

/** One bench in one run: the real pipeline, conductor, mailbox and rules, with a world, a disk, a clock and two screens around them. */
export class Play {
  readonly time = modelTime();
  readonly disk = new ModelDisk(() => this.time.now);
  readonly world: ModelWorld;
  readonly happened = new Happened();
  readonly screens: Readonly<Record<Which, ModelScreen>>;
  readonly story: Story;
  readonly mood: () => number;
  readonly #rules: Rules;
  readonly #views = new Map<Which, View>();
  readonly #dark = new Set<Which>();
  /** Intents in the order they were first sent. */
  readonly order: string[] = [];
  probes: { lye: number | null; oils: number | null } = { lye: null, oils: null };
  flying = 0;
  /** Frames of a chunk that is not whole yet. */
  readonly #held: Readonly<Record<ScaleRole, Measured[]>> = { main: [], fine: [] };
  #boot: ModelBoot | null = null;
  #ids = 0;
  #nextBeat = 0;
  #nextTick = 0;
  #stallUntil = -Infinity;

  constructor(story: Story, rules: Rules = decide) {
    this.story = story;
    this.#rules = rules;
    this.world = new ModelWorld(story);
    this.mood = chance(story.seed + 1);
    const screen = (name: Which) => createModelScreen(name, () => this.time.now);
    this.screens = { tablet: screen('tablet'), phone: screen('phone') };
  }

  get boot(): ModelBoot {
    if (this.#boot === null) throw new Error('not started');
    return this.#boot;
  }
  get batch(): BatchState | null {
    return this.boot.bench.batch();
  }

  readonly newId = <T extends string>(): T => as<T>(`id-${String((this.#ids += 1)).padStart(8, '0')}`);

  async start(): Promise<void> {
    this.#boot = await startBoot({
      number: this.happened.boots.size + 1,
      configs: modelConfigs(this.story.seed),
      clock: bootClock(this.time),
      journal: this.disk.open(),
      begun: await this.#begun(),
      plan: (id) => MODEL_PLANS[id] ?? null,
      newId: this.newId,
      isLost: (id) => Object.values(this.world.pans).some((pan) => pan.id === id && pan.lost),
      decide: (state, command) => this.#decided(state, command),
      trouble: (what, error) => {
        if (!(error instanceof DiskFull)) this.happened.broken.push(`trouble: ${what}: ${String(error)}`);
      },
    });
    const { boot, bench, clock } = this.#boot;
    this.happened.boots.set(boot, { at: this.time.now, mono: clock.now() });
    bench.listen({ frame: (frame) => this.happened.broken.push(...frameFaults(frame, this)) });
    for (const pan of Object.values(this.world.pans)) pan.seq = 0;
    for (const which of ['tablet', 'phone'] as const) {
      this.screens[which].connect(bench);
      this.look(which);
    }
    await settled();
  }

  /** Power off and on: everything that was only remembered is gone. */
  async crash(): Promise<void> {
    for (const screen of Object.values(this.screens)) screen.cut();
    this.disk.crash();
    for (const role of ROLES) this.#held[role].length = 0;
    this.flying = 0;
    this.#nextTick = this.time.now;
    await this.start();
  }

  end(): void {
    for (const screen of Object.values(this.screens)) screen.cut();
  }

  look(which: Which): void {
    const { bench, boot } = this.boot;
    this.#views.set(which, { boot, batch: bench.batch(), cue: bench.frame().cue });
  }
  viewOf(which: Which): View {
    const { bench, boot } = this.boot;
    return this.#views.get(which) ?? { boot, batch: bench.batch(), cue: bench.frame().cue };
  }

  /** Time goes by: readings, ticks and heartbeats at their rhythm. `hear` false: no scale says anything. */
  async pass(ms: number, hear = true): Promise<void> {
    const until = this.time.now + ms;
    for (;;) {
      const next = Math.min(this.#nextTick, this.#nextBeat, ...ROLES.map((role) => this.world.pans[role].nextAt));
      if (next > until) break;
      this.time.now = Math.max(this.time.now, next);
      for (const role of ROLES) if (this.world.pans[role].nextAt <= this.time.now) await this.#speak(role, hear);
      if (this.#nextBeat <= this.time.now) this.#beat();
      if (this.#nextTick <= this.time.now) await this.#tick();
    }
    this.time.now = until;
  }

  /** Nothing runs for so long, then what waited in the line comes at once. */
  async standStill(ms: number): Promise<void> {
    this.time.now += ms;
    const stalled = ms > 250;
    for (const role of ROLES) {
      const pan = this.world.pans[role];
      const waiting = Math.min(20, Math.floor(ms / pan.period));
      pan.nextAt = this.time.now + pan.period;
      if (stalled) this.#stallUntil = this.time.now + pan.period;
      if (pan.silent || pan.lost) continue;
      for (let i = 0; i < waiting; i += 1) this.deliver(role, stalled);
    }
    if (stalled) this.happened.disarmed.push({ role: null, at: this.time.now, boot: this.boot.boot, forgets: false });
    await this.#tick();
  }

  deliver(role: ScaleRole, waited = false): void {
    this.#held[role].push(this.#measure(role));
    for (const one of this.#held[role].splice(0)) this.#handOver(one, waited);
  }

  #measure(role: ScaleRole): Measured {
    const { now } = this.time;
    const { vessel } = this.world.pans[role];
    const reading = this.world.read(role, now);
    const contents = this.world.vessels.get(vessel ?? '')?.contents ?? 0;
    const scale = { division: this.world.divisionOf(role, now), drift: this.world.driftOf(role, now) };
    return { reading, stood: { role, at: now, boot: this.boot.boot, vessel, contents, ...scale } };
  }

  #handOver({ reading, stood }: Measured, waited: boolean): void {
    const { boot, clock, inputs } = this.boot;
    const { role, division } = stood;
    const pan = this.world.pans[role];
    const { mass, text, unit } = reading;
    this.happened.stood.push({ ...stood, heard: this.time.now });
    this.happened.delivered.push({
      role,
      at: this.time.now,
      boot,
      mass,
      text,
      raw: Buffer.from(reading.raw).toString('base64'),
      unit,
      division,
      moving: reading.motion === 'moving',
      suspect: mass !== null && mass > pan.capacity + 9 * division,
      waited: waited ? 'yes' : this.time.now < this.#stallUntil ? 'maybe' : 'no',
    });
    inputs.reading({ ...reading, at: clock.now() });
  }

  /** The cable of a scale comes out, and goes in again after a while. */
  async lose(role: ScaleRole, ms: number): Promise<void> {
    const pan = this.world.pans[role];
    pan.lost = true;
    this.#held[role].length = 0;
    this.happened.disarmed.push({ role, at: this.time.now, boot: this.boot.boot, forgets: true });
    this.#tellStatus(pan.id, 'waiting');
    await settled();
    await this.pass(ms);
    if (!pan.lost) return;
    Object.assign(pan, { lost: false, seq: 0 });
    this.#tellStatus(pan.id, 'live');
  }

  async jump(ms: number, kind: 'wall' | 'suspend'): Promise<void> {
    this.time.wallAhead += ms;
    if (kind === 'suspend') this.time.upAhead += Math.abs(ms);
    this.happened.disarmed.push({ role: null, at: this.time.now, boot: this.boot.boot, forgets: true });
    await this.#tick();
  }

  lease(which: Which, want: 'take' | 'release'): void {
    const { bench, boot } = this.boot;
    const { id } = this.screens[which];
    const before = bench.leaseFor(id).holder;
    if (want === 'take') bench.takeLease(id, which);
    else bench.releaseLease(id);
    this.#leased(want === 'take' ? 'taken' : 'given back', id);
    if (bench.leaseFor(id).holder !== before) this.happened.disarmed.push({ role: null, at: this.time.now, boot, forgets: false });
  }

  dark(which: Which, on: boolean): void {
    if (on) this.#dark.add(which);
    else this.#dark.delete(which);
  }

  /** Sends an intent as a screen would that saw this. The answer is noted whenever it comes. */
  async intend(which: Which, want: IntentWant, seen: Seen, times: Times): Promise<void> {
    const made = Array.from({ length: times === 'double' ? 2 : 1 }, () => this.#intentOf(which, want, seen));
    if (want.kind === 'start') this.#bringOut(want.plan);
    for (const intent of times === 'both' ? [...made, ...made] : made) this.send(which, intent);
    await settled();
  }

  send(which: Which, intent: BenchIntent): void {
    const { bench, boot } = this.boot;
    const { id } = this.screens[which];
    const role = which === 'phone' && this.story.seed % 4 === 0 ? 'watcher' : 'maker';
    const known = this.happened.sent.get(intent.id);
    const sent = known ?? { intent, by: id, role, at: this.time.now, boot, answers: [] };
    if (known === undefined) {
      this.happened.sent.set(intent.id, sent);
      this.order.push(intent.id);
    }
    this.flying += 1;
    bench.intent({ screen: id, role }, intent).then(
      (answer): undefined => {
        if (this.boot.boot !== boot) return undefined;
        this.flying -= 1;
        sent.answers.push(answer);
        if (answer.ok && answer.seq > this.disk.kept.seq()) this.happened.broken.push(`${intent.id} is answered before it is written`);
        return undefined;
      },
      (error: unknown) => this.happened.broken.push(`an intent was rejected: ${String(error)}`),
    );
  }

  #intentOf(which: Which, want: IntentWant, seen: Seen): BenchIntent {
    if (seen !== 'before') this.look(which);
    const view = this.viewOf(which);
    const fresh = want.kind === 'start' || want.kind === 'take-up';
    const now = this.boot.clock.now();
    return {
      id: this.newId<string>(),
      batch: fresh ? null : (view.batch?.id ?? null),
      expectedVersion: fresh || seen === 'no version' ? null : (view.batch?.version ?? null),
      seen: {
        boot: seen === 'wrong boot' ? 'boot-0' : view.boot,
        episode: view.cue.episode + (seen === 'wrong episode' ? 1 : 0),
      },
      expires: seen === 'expired' ? now - 1 : now + VALID_MS,
      want,
    };
  }

  #bringOut(plan: string): void {
    const wanted = MODEL_PLANS[plan];
    const ended = this.batch === null || this.batch.status === 'closed' || this.batch.status === 'abandoned';
    if (wanted !== undefined && ended) this.world.clearTable(wanted, this.time.now);
  }

  async #speak(role: ScaleRole, hear: boolean): Promise<void> {
    const pan = this.world.pans[role];
    pan.nextAt += this.world.intervalOf(pan);
    if (pan.nextAt <= this.time.now) pan.nextAt = this.time.now + pan.period;
    if (!hear || pan.silent || pan.lost) {
      this.#held[role].length = 0;
      return;
    }
    if (pan.nature.pairs && this.#held[role].length === 0) {
      this.#held[role].push(this.#measure(role));
      return;
    }
    this.deliver(role);
    await settled();
  }

  async #tick(): Promise<void> {
    this.#nextTick = this.time.now + TICK_MS;
    this.boot.inputs.tick();
    await settled();
  }

  #beat(): void {
    this.#nextBeat = this.time.now + BEAT_MS;
    for (const which of ['tablet', 'phone'] as const) {
      if (this.#dark.has(which) || !this.screens[which].connected) continue;
      this.boot.bench.alive(this.screens[which].id, true);
      this.#leased('beat', this.screens[which].id);
    }
    for (const use of ['lye', 'oils'] as const) this.#tellProbe(use);
  }

  #tellProbe(use: 'lye' | 'oils'): void {
    const degrees = this.probes[use];
    if (degrees === null) return;
    const head = { kind: 'temperature', instrument: as<InstrumentId>(`probe-${use}`), raw: new Uint8Array(), use, fault: null } as const;
    const at = this.boot.clock.now();
    this.boot.inputs.reading({ ...head, seq: Math.round(at), at, value: celsius(degrees), text: String(degrees) });
  }

  #tellStatus(instrument: InstrumentId, phase: 'waiting' | 'live'): void {
    const failure = phase === 'waiting' ? 'lost' : null;
    const rest = {
      detail: '',
      shape: 'header-comma',
      nature: 'simulated',
      lossesLastHour: 0,
      retryInMs: null,
      faults: {},
      readings: 0,
    } as const;
    this.boot.inputs.status({ instrument, phase, failure, ...rest });
  }

  #leased(what: 'taken' | 'beat' | 'given back', by: ModelScreen['id']): void {
    this.happened.leases.push({ at: this.time.now, boot: this.boot.boot, what, by });
  }

  #decided: Rules = (state, command) => {
    try {
      const decision = this.#rules(state, command);
      if (decision.ok) this.#note(command);
      return decision;
    } catch (error) {
      this.happened.broken.push(`the rules threw at ${command.kind}: ${String(error)}`);
      throw error;
    }
  };

  #note(command: Parameters<Rules>[1]): void {
    const { clock, boot } = this.boot;
    const decided = { at: this.time.now, mono: clock.now(), holder: this.happened.holderAt(boot, this.time.now) };
    if (command.intent !== null) this.happened.decided.set(command.intent, decided);
    if (command.kind === 'accept') this.happened.decided.set(acceptKey(boot, command.body.weighed.episode), decided);
  }

  async #begun(): Promise<readonly BatchId[]> {
    const lines = await this.disk.kept.lines(0, 1_000_000);
    return lines
      .filter((line) => line.text.includes('"kind":"batch-started"'))
      .map((line) => (JSON.parse(line.text) as { batch: BatchId }).batch)
      .toReversed();
  }
}
