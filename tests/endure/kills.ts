import type { LineId } from '#lib/units/id';
import { openStore } from '#server/store/open';
import { chance } from '#tests/support/model/chance';
import { freePort, serverProcess, tempFolder } from '#tests/support/server-rig';
import type { ServerProcess } from '#tests/support/server-rig';
import { KeptLog, STILL } from '#tests/support/store-rig';
import { Maker, offBy } from './maker';
import { recordFaults } from './record-faults';
import { startScales } from './scales';
import { Seat } from './seat';
import type { Endured } from './endured';

/** What a weight may be off by: noise and creep at both ends of a weighing. Anything lost or doubled is hundreds. */
const OFF_AT_MOST = 5;
/** A kill that waits for an intent or an offer does not wait longer. */
const LONGEST_MS = 6_000;

/** When the server is killed: at any time, within milliseconds of an intent, or around the moment at which a weight is accepted by itself. */
type Moment = { readonly at: 'any time'; readonly ms: number } | { readonly at: 'an intent' | 'an offer'; readonly ms: number };

const momentBy = (random: () => number): Moment => {
  const kind = random();
  if (kind < 0.4) return { at: 'any time', ms: 4_000 * random() };
  if (kind < 0.75) return { at: 'an intent', ms: 12 * random() };
  return { at: 'an offer', ms: 30 * random() - 10 };
};

/** Resolves when the moment has come and the server is dead. */
const killedAt = (moment: Moment, server: ServerProcess, seat: Seat, lead: number): Promise<unknown> =>
  new Promise((resolve) => {
    const timers = new Set<NodeJS.Timeout>();
    const strike = (): void => {
      for (const timer of timers) clearTimeout(timer);
      seat.sent = () => undefined;
      seat.screen.socket.off('live', watch);
      resolve(server.end('SIGKILL'));
    };
    const strikeIn = (ms: number): void => void timers.add(setTimeout(strike, Math.max(0, ms)));
    const watch = ({ boot, cue }: { boot: string; cue: { acceptsIn: { left: number } | null } }): void => {
      if (boot !== seat.boot || cue.acceptsIn === null) return;
      seat.screen.socket.off('live', watch);
      strikeIn(cue.acceptsIn.left + moment.ms);
    };
    if (moment.at === 'any time') return strikeIn(moment.ms);
    strikeIn(LONGEST_MS);
    if (moment.at === 'an offer') return void seat.screen.socket.on('live', watch);
    // Not always the first thing said after a restart.
    timers.add(
      setTimeout(() => {
        seat.sent = () => {
          seat.sent = () => undefined;
          strikeIn(moment.ms);
        };
      }, lead),
    );
    return undefined;
  });

/** Sends again, under the same ids, what got no answer: it is answered from the record or refused, and never done now. */
const sendAgain = async (
  seat: Seat,
): Promise<{ readonly written: number; readonly refused: number; readonly faults: readonly string[] }> => {
  const open = [...seat.unanswered.values()];
  const found = { written: 0, refused: 0, faults: [] as string[] };
  for (const intent of open) {
    const stands = [...seat.told.keys()].some((batch) => seat.entries(batch).some((entry) => entry.intent === intent.id));
    const answer = await seat.send(intent);
    if (answer.ok) found.written += 1;
    else found.refused += 1;
    // What ended a batch is in nobody's hello: the end's look at the record holds its answer against it.
    if (stands && !answer.ok) found.faults.push(`${intent.id} (${intent.want.kind}) stands and was refused: ${answer.refusal.code}`);
    if (answer.ok && !answer.repeated) found.faults.push(`${intent.id} (${intent.want.kind}) was done after the restart`);
  }
  return found;
};

/**
 * A server weighing batch after batch from scales on ttys, killed with -9 that many times. After each: everything it had told or answered is
 * there, nothing of what it had not answered is there twice, and the batch goes on from the same line. In the end the record is read from
 * the disk, and each closed line is compared with what truly went into its vessel.
 */
export const kills = async (times: number, seed: number, told: (line: string) => void = () => undefined): Promise<Endured> => {
  const random = chance(seed);
  const folder = tempFolder();
  const scales = await startScales(seed);
  const port = await freePort();
  const flags = ['--port', String(port), '--data', folder.path, '--scale', scales.main.path, '--scale', scales.fine.path];
  let server = await serverProcess(flags);
  const seat = new Seat(port);
  const maker = new Maker(seat, scales, random);
  const faults: string[] = [];
  const counts = { failed: 0, written: 0, refused: 0 };
  const struck: Record<string, number> = { 'any time': 0, 'an intent': 0, 'an offer': 0 };
  try {
    await seat.sitDown();
    for (let kill = 1; kill <= times; kill += 1) {
      const before = seat.boot;
      const moment = momentBy(random);
      struck[moment.at] = (struck[moment.at] ?? 0) + 1;
      const death = killedAt(moment, server, seat, 3_000 * random()).then(() => 'dead' as const);
      while ((await Promise.race([maker.turn(), death])) !== 'dead');
      maker.drop();
      server = await serverProcess(flags);
      await seat.sitDown(before);
      const again = await sendAgain(seat);
      counts.written += again.written;
      counts.refused += again.refused;
      const found = [...seat.broken.splice(0), ...again.faults];
      faults.push(...found.map((fault) => `kill ${kill} at ${moment.at} ${moment.ms.toFixed(1)} ms: ${fault}`));
      if (found.length > 0) counts.failed += 1;
      if (kill % 10 === 0) told(`${kill} kills, ${maker.batches} batches, ${counts.failed} failed`);
    }
    await server.end('SIGKILL');
    const end = await atTheEnd(folder.path, seat, maker);
    faults.push(...end.faults);
    return {
      name: 'kill -9',
      passed: times - counts.failed,
      failed: counts.failed + (end.faults.length > 0 ? 1 : 0),
      faults,
      figures: {
        'killed at any time': struck['any time'] ?? 0,
        'killed within 12 ms of an intent': struck['an intent'] ?? 0,
        'killed around an offer': struck['an offer'] ?? 0,
        'unanswered and in the record, once': counts.written,
        'unanswered and not in the record': counts.refused,
        'intents answered': seat.answered.length,
        batches: maker.batches,
        ...end.figures,
      },
    };
  } finally {
    seat.leave();
    if (server.child.exitCode === null && server.child.signalCode === null) await server.end('SIGKILL');
    await Promise.all([scales.main.end(), scales.fine.end()]);
    folder.remove();
  }
};

/** The record as the next server would open it, against everything that was told, answered and truly weighed. */
const atTheEnd = async (dir: string, seat: Seat, maker: Maker): Promise<Pick<Endured, 'faults' | 'figures'>> => {
  const store = await openStore({ dir, realm: 'test', clock: STILL, log: new KeptLog() });
  try {
    const lines = (await store.bench.lines(0, 1_000_000)).map(({ text }) => text);
    const { ok } = await store.verify();
    const { faults, actualOf, entries } = recordFaults(lines, seat);
    const weighed = offBy(maker, (batch, line: LineId) => actualOf(batch, line));
    const wrong = weighed.filter(({ divisions }) => divisions > OFF_AT_MOST);
    return {
      faults: [
        ...(ok ? [] : ['the record does not verify']),
        ...faults,
        ...wrong.map(({ truth, divisions }) => `${truth.line} of ${truth.batch} is ${divisions.toFixed(1)} divisions from the truth`),
      ],
      figures: {
        entries: entries.length,
        'weights accepted': entries.filter(({ kind }) => kind === 'weight-accepted').length,
        'weights typed': entries.filter(({ kind }) => kind === 'weight-typed').length,
        'lines compared with the truth': weighed.length,
        'furthest from it, divisions': Math.max(0, ...weighed.map(({ divisions }) => divisions)).toFixed(1),
      },
    };
  } finally {
    await store.close();
  }
};
