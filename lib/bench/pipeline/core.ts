import type { BatchId, EntryId, InstrumentId } from '#lib/units/id';
import type { IntentAnswer } from '#lib/protocol/intent';
import type { LiveFrame } from '#lib/protocol/live';
import type { EntryBodies, Refusal, Want } from '#lib/work/batch/index';
import { decide } from '#lib/work/batch/index';
import { seeLye, type LyeSeen } from '#lib/work/batch/heating';
import { alarmWants } from '../alarms';
import { roundOnBench } from '../bars/on-bench';
import { createRound } from '../bars/round';
import { IDLE_CUE } from '../conductor/blank';
import { askingOf, conductor } from '../conductor/index';
import type { BenchView, ConductorEvent } from '../conductor-types';
import { createHands, stoppedBy } from '../hand';
import { isLeased } from '../lease';
import { createMailbox } from '../mailbox';
import type { Commit } from '../mailbox';
import { neverMeet } from '../waiting';
import { createAudience, createShowing } from './audience';
import { complete, OF_ITSELF } from './complete';
import { createCourse } from './course';
import type { Behalf } from './complete';
import { createForecasts } from './forecasts';
import { frameOf } from './frames';
import { laneOfCommit } from './lane';
import { createLooks } from './looks';
import { lossWants } from './losses';
import { createMouldHeat } from './mould-heat';
import { createRemedies } from './remedies';
import { createStrips } from './strips';
import { oneForEachUse, probeView, scaleView } from './views';
import { createWatch } from './watch';
import type { Core, CoreParts } from './core-types';

/** A wall step, a suspend, and a standstill of the process that a person would notice, are kept in the record. */
const NOTED_STALL_MS = 1_000;
/** What the record refused without anybody having asked is not tried again at every tick. */
const PATIENCE_MS = 1_000;

export const createCore = (parts: CoreParts): Core => {
  const { clock, boot } = parts;
  const watch = createWatch(parts.configs, parts.corrections);
  const strips = createStrips();
  const course = createCourse();
  const mouldHeat = createMouldHeat();
  const forecasts = createForecasts({
    boot,
    tell(lane) {
      course.told(lane);
      audience.tell((listener) => listener.forecast?.(lane));
    },
    trouble: parts.trouble,
  });
  const audience = createAudience(parts.trouble);
  const showing = createShowing(audience);
  const discarded = new Map<InstrumentId, number>();
  const hands = createHands(parts.stops ?? []);
  const checks: Record<InstrumentId, EntryId> = { ...parts.checks };
  let memory = conductor.initial({ episode: 0 });
  let cue = IDLE_CUE;
  let lyeSeen: LyeSeen | null = null;
  let underway = 0;
  let leader = parts.person;
  let patientUntil = -Infinity;

  const looks = createLooks({
    clock,
    up: parts.up,
    stalled(stall) {
      watch.stalled(stall);
      byItself({ kind: 'disarm', why: 'stall', instrument: null });
      if (stall.to - stall.from >= NOTED_STALL_MS) noteJump({ byMs: Math.round(stall.to - stall.from), kind: 'stall' });
    },
    jumped(jump) {
      watch.forgetAll();
      forecasts.forgetAll();
      course.forget();
      mouldHeat.forget();
      byItself({ kind: 'disarm', why: jump.kind === 'suspend' ? 'suspend' : 'clock', instrument: null });
      noteJump(jump);
      show('clock');
    },
    leaseChanged() {
      byItself({ kind: 'disarm', why: 'lease', instrument: null });
      audience.tell((listener) => listener.lease?.());
      show('clock');
    },
  });

  const mailbox = createMailbox({
    journal: parts.journal,
    newEntryId: parts.newEntryId,
    batch: parts.batch,
    ...(parts.decide === undefined ? {} : { decide: parts.decide }),
    committed: (commit) => committed(commit),
    failed: (error) => parts.trouble('the record could not be written', error),
  });

  const view = (): BenchView => {
    const now = clock.now();
    return {
      scales: watch.scales().map((scale) => scaleView(scale, now)),
      probes: oneForEachUse(watch.probes(), now).map((probe) => probeView(probe, now)),
      leased: isLeased(looks.lease(), now),
      unseen: looks.lease().unseen,
      boot,
      probesInVessel: parts.probesInVessel(),
      lyeSeen,
      neverMeet: neverMeet(forecasts.newest()?.meeting ?? null),
      ...ways(),
      hand: { ...hands.of(leader), person: leader },
    };
  };

  const frame = (): LiveFrame => {
    const now = clock.now();
    const made = { boot, n: showing.count(), now, watch, cue, batch: mailbox.batch(), status: parts.status, checks };
    return frameOf({ ...made, bars: bars?.cue() ?? null });
  };
  const show = (by: 'event' | 'aside' | 'clock'): void => showing.show(frame(), by);

  const bars =
    parts.bars === undefined
      ? null
      : createRound(
          roundOnBench({
            boot,
            clock,
            book: parts.bars,
            view: () => view(),
            memory: () => memory,
            batch: () => mailbox.batch(),
            checks,
            changed: () => show('event'),
          }),
        );

  const letter = (want: Want, batch: BatchId, behalf: Behalf) =>
    complete(want, batch, behalf, {
      boot,
      clock,
      view: view(),
      memory,
      batch: mailbox.batch(),
      checks,
      strips,
      course,
      newId: parts.newEntryId,
    });

  const remedies = createRemedies({
    answer: parts.answerRemedy,
    stock: parts.stock,
    entering: (want, batch) => {
      const { command } = letter(want, batch.id, { ...OF_ITSELF, by: leader, role: 'maker' });
      return { command, decision: (parts.decide ?? decide)(batch, command) };
    },
    trouble: parts.trouble,
    answered() {
      byItself({ kind: 'tick' });
      show('event');
    },
  });
  const ways = (): Pick<BenchView, 'remedy'> => {
    const remedy = remedies.view();
    return remedy === undefined ? {} : { remedy };
  };

  const send = async (want: Want, batch: BatchId, behalf: Behalf): Promise<IntentAnswer> => {
    underway += 1;
    try {
      return await mailbox.send(letter(want, batch, behalf));
    } finally {
      underway -= 1;
    }
  };

  const step = (event: ConductorEvent): readonly Want[] => {
    const now = clock.now();
    const seen = view();
    const after = conductor.step(memory, mailbox.batch(), seen, event, now);
    memory = after.memory;
    cue = after.cue;
    remedies.follow(askingOf(memory, now), mailbox.batch(), seen);
    return after.wants;
  };

  /** Nothing is accepted by itself once nobody leads the bench, however long the record took to come to it. */
  const unled = (): Refusal | null => (isLeased(looks.lease(), clock.now()) ? null : { code: 'not-in-control', params: {} });

  /** Wants that no person asked for. */
  const wish = (wants: readonly Want[], behalf: Behalf = OF_ITSELF): void => {
    const batch = mailbox.batch();
    if (batch === null || clock.now() < patientUntil) return;
    for (const want of wants) {
      const on = want.kind === 'accept' ? { ...behalf, withdrawn: unled } : behalf;
      void send(want, batch.id, on).then((answer) => heed(want, answer));
    }
  };
  /** The conductor knows by itself when to ask again; rules that run on every tick do not, nor does anyone while nothing can be written. */
  const heed = (want: Want, answer: IntentAnswer): void => {
    if (!answer.ok && (answer.refusal.code === 'read-only' || RULED.has(want.kind))) patientUntil = clock.now() + PATIENCE_MS;
  };
  const byItself = (event: ConductorEvent): void => wish(step(event));

  const noteJump = (jump: EntryBodies['clock-jumped']): void => {
    const status = mailbox.batch()?.status;
    if (status === 'weighing' || status === 'joined') wish([{ kind: 'mark-clock-jump', body: jump }], BY_RULE);
  };

  const committed = (commit: Commit): void => {
    for (const entry of commit.entries) {
      if (entry.kind === 'vessel-set') strips.began(entry.body.instrument, clock.now());
      if (entry.kind === 'weight-accepted') strips.began(entry.body.weighed.instrument, clock.now());
      if (entry.kind === 'split' && entry.body.weighed !== undefined) strips.began(entry.body.weighed.instrument, clock.now());
      const stopped = stoppedBy(entry);
      if (stopped !== null) hands.saw(stopped);
      if (entry.kind === 'batch-started') course.forget();
      if (entry.kind === 'dissolved') {
        // What was heard before is of something else.
        lyeSeen = null;
        forecasts.lyeMade(clock.now());
      }
      const typed = entry.kind === 'temperature-noted' && entry.body.use === 'lye' && entry.body.source === 'by-hand';
      if (typed) lyeSeen = seeLye(lyeSeen, entry.body.value, clock.now());
      if (entry.kind === 'scale-checked') checks[entry.body.instrument] = entry.id;
    }
    audience.tell((listener) => listener.record?.(laneOfCommit(commit)));
    byItself({ kind: 'batch' });
    show('event');
  };

  return {
    parts,
    mailbox,
    watch,
    discarded: (instrument) => discarded.get(instrument) ?? 0,
    reading(raw) {
      looks.loop();
      const reading = watch.take(raw);
      if (reading === null) {
        discarded.set(raw.instrument, (discarded.get(raw.instrument) ?? 0) + 1);
        return;
      }
      strips.reading(reading);
      if (reading.kind === 'temperature') {
        forecasts.heard(reading);
        course.heard(reading);
        mouldHeat.heard(reading);
        if (reading.use === 'lye' && reading.value !== null) lyeSeen = seeLye(lyeSeen, reading.value, clock.now());
      }
      if (reading.kind === 'mass') byItself({ kind: 'reading', reading });
      bars?.look();
      show(reading.kind === 'mass' ? 'event' : 'aside');
    },
    status({ phase, instrument }) {
      looks.loop();
      if (phase === 'waiting' || phase === 'closed' || phase === 'opening') {
        watch.lost(instrument);
        byItself({ kind: 'disarm', why: 'reconnect', instrument });
      }
      show('clock');
    },
    tick() {
      looks.loop();
      looks.clocks();
      looks.leases();
      forecasts.look(mailbox.batch(), clock.now());
      byItself({ kind: 'tick' });
      bars?.look();
      if (underway === 0) {
        const batch = mailbox.batch();
        wish(
          [
            ...lossWants(batch, watch.scales(), clock.now()),
            ...alarmWants(batch, view(), memory, clock.now()),
            ...forecasts.wants(batch),
            ...mouldHeat.wants(batch),
          ],
          BY_RULE,
        );
      }
      show('clock');
    },
    frame() {
      looks.loop();
      return frame();
    },
    async conduct(event, behalf) {
      const wants = step(event);
      const batch = mailbox.batch();
      show('event');
      if (batch === null) return [];
      // One press, one intent: the first command carries its id and the version the person saw, the others follow from it.
      const follow = { ...behalf, intent: null, expectedVersion: null };
      return Promise.all(wants.map((want, i) => send(want, batch.id, i === 0 ? behalf : follow)));
    },
    forecast: () => forecasts.newest(),
    moved: (vessel) => forecasts.moved(vessel, clock.now()),
    send,
    sendTo: (batch, want, behalf) => mailbox.sendTo(batch, letter(want, batch.id, behalf)),
    sendAside: (batch, load, want, behalf) => mailbox.aside(load, letter(want, batch, behalf)),
    bars,
    episode: () => cue.episode,
    lease: () => looks.lease(),
    setLease: (lease) => looks.setLease(lease),
    ledBy: (person) => void (leader = person),
    listen: (listener) => audience.listen(listener),
  };
};

const BY_RULE: Behalf = { ...OF_ITSELF, via: 'server' };
const RULED: ReadonlySet<Want['kind']> = new Set(['raise-alarm', 'end-alarm', 'lose-instrument', 'regain-instrument']);
