/**
 * How fast bytes become readings: our wire beside the npm line parser with a regular expression that yields the same fields, on the
 * same bytes in the same chunks, turn about in one run. `npm run bench:decode`. The goal is three times.
 */
import { once } from 'node:events';
import { ReadlineParser } from '@serialport/parser-readline';
import type { Reading } from '#lib/measure/reading';
import { createWire } from '#lib/measure/wire/index';
import { as } from '#lib/units/id';
import type { InstrumentId } from '#lib/units/id';
import { monotonic } from '#lib/units/time';
import { BARE, type BareReading } from './bare-decoders';
import { SUBJECTS, type Subject, chunksOf, shapeOfSubject, streamOf } from './decode-streams';

const CHUNKS = [64, 4096] as const;
const WARM_UP = 15;
const ROUNDS = 60;
const GOAL = 3;
const INSTRUMENT = as<InstrumentId>('bench');

const ours = (subject: Subject, chunks: readonly Uint8Array[], reading: (reading: Reading) => void): void => {
  const wire = createWire({ shape: shapeOfSubject(subject), instrument: INSTRUMENT, use: null, sink: { reading, fault: () => {} } });
  for (const chunk of chunks) wire.push(chunk, monotonic(1));
};

const theirs = async (subject: Subject, chunks: readonly Uint8Array[], reading: (reading: BareReading) => void): Promise<void> => {
  const { delimiter, decoder } = BARE[subject];
  const decode = decoder(INSTRUMENT);
  const parser = new ReadlineParser({ delimiter, encoding: 'latin1' });
  parser.on('data', (line: string) => {
    const read = decode(line, monotonic(1));
    if (read !== null) reading(read);
  });
  for (const chunk of chunks) if (!parser.write(chunk)) await once(parser, 'drain');
  parser.end();
  await once(parser, 'end');
};

/** The two may differ only in the frames ours drops until the layout is known, and the bare one in raw bytes kept as a string. */
const compare = (subject: Subject, mine: readonly Reading[], bare: readonly BareReading[]): void => {
  const extra = bare.length - mine.length;
  if (extra < 0 || extra > 4) throw new Error(`${subject}: ${mine.length} readings, ${bare.length} from the bare decoder`);
  for (const [index, reading] of mine.entries()) {
    const other = { ...bare[index + extra], seq: reading.seq, raw: reading.raw };
    if (JSON.stringify(other) !== JSON.stringify(reading))
      throw new Error(`${subject}: ${JSON.stringify(reading)} is not ${JSON.stringify(other)}`);
  }
};

const measure = async (subject: Subject, size: number): Promise<number> => {
  const stream = streamOf(subject);
  const chunks = chunksOf(stream, size);
  const said: Reading[] = [];
  const saidBare: BareReading[] = [];
  ours(subject, chunks, (reading) => said.push(reading));
  await theirs(subject, chunks, (reading) => saidBare.push(reading));
  compare(subject, said, saidBare);
  const mine: number[] = [];
  const bare: number[] = [];
  // Both keep the newest reading, as a bench does.
  let newest: Reading | BareReading | null = null;
  const keep = (reading: Reading | BareReading): void => void (newest = reading);
  for (let round = -WARM_UP; round < ROUNDS; round += 1) {
    const start = performance.now();
    ours(subject, chunks, keep);
    const middle = performance.now();
    await theirs(subject, chunks, keep);
    const end = performance.now();
    if (round < 0) continue;
    mine.push(middle - start);
    bare.push(end - middle);
  }
  if (newest === null) throw new Error(`${subject}: no reading`);
  // The best round is the one other programs disturbed least.
  const speed = (times: readonly number[]): number => stream.length / 1000 / Math.min(...times);
  const ratio = Math.min(...bare) / Math.min(...mine);
  console.log(
    `${subject.padEnd(20)} ${String(size).padStart(6)} ${speed(mine).toFixed(1).padStart(9)} ${speed(bare).toFixed(1).padStart(9)} ${ratio.toFixed(2).padStart(7)}`,
  );
  return ratio;
};

console.log('shape                 chunk  ours MB/s  bare MB/s   ratio');
let least = Infinity;
for (const size of CHUNKS) for (const subject of SUBJECTS) least = Math.min(least, await measure(subject, size));
console.log(`least ratio ${least.toFixed(2)}, goal ${GOAL}`);
if (least < GOAL) process.exitCode = 1;
