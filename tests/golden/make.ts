/**
 * Makes a golden journal: `tsx tests/golden/make.ts FILE`. Run once for a release, by the real server on its practice bench; what it wrote is
 * kept for ever and never made again. Two batches: one made to its end, with over-pours, a weight crossed out and some typed by hand, and one that
 * was stopped.
 */
import { writeFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { openStore } from '#server/store/open';
import { foldBatch } from '#server/bench/restore';
import { as } from '#lib/units/id';
import { SAMPLE_PLANS } from '#lib/work/formula/sample';
import { driveBatch } from '#tests/support/drive-batch';
import { optionsFor, screenAt, serverHere, tempFolder } from '#tests/support/server-rig';
import { stateHash } from '#tests/support/record-rig';
import { KeptLog, STILL } from '#tests/support/store-rig';
import type { Golden } from './golden';

const [file = ''] = process.argv.slice(2);
const folder = tempFolder();
const server = await serverHere(optionsFor(folder.path));
const screen = screenAt(server.port);
await screen.greeted();
await driveBatch(screen, {
  plan: 'meadowsweet',
  over: { coconut: { by: 4, answer: 'cross-out' }, olive: { by: 4, answer: 'carry-on' } },
  byHand: { sunflower: '100.2', 'meadowsweet-scent': '12.05', water: '142.0', soda: '71.0' },
});
console.log('one batch is made');
const second = SAMPLE_PLANS.find(({ id }) => id === 'alder-and-oat')?.plan.lines[1]?.id ?? '';
await driveBatch(screen, { plan: 'alder-and-oat', until: second });
await screen.insist({ kind: 'note', text: 'Stopped here: the olive oil ran out.' });
await screen.insist({ kind: 'abandon', reason: 'the olive oil ran out', held: true });
console.log('another is begun and stopped');
screen.close();
await server.stop();

const store = await openStore({ dir: folder.path, realm: 'practice', clock: STILL, log: new KeptLog() });
const { batches } = await store.batches.list({ before: null, limit: 10 });
const golden: Golden = {
  bench: await store.bench.lines(0, 100_000),
  workshop: await store.workshop.lines(0, 100_000),
  batches: await Promise.all(
    batches.map(async ({ id }) => {
      const state = await foldBatch(store.bench, as(id));
      return { id, hash: stateHash(state), state };
    }),
  ),
};
await store.close();
folder.remove();
writeFileSync(file, gzipSync(JSON.stringify(golden), { level: 9 }));
console.log(`${golden.bench.length} and ${golden.workshop.length} lines in ${file}`);
process.exit(0);
