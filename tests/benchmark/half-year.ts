/**
 * The half-year that the practice bench begins with: how long 60 batches take to be laid out, and what every page of them asks for over
 * HTTP: `npm run bench:half-year`. Wanted: under 10 s, and each answer under 100 ms.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { BarsList } from '#lib/protocol/bars';
import type { BatchList } from '#lib/protocol/http';
import { systemClock } from '#server/bench/system';
import { layOutPast } from '#server/past/half-year';
import { appRig } from '#tests/support/app-rig';

const LAID_OUT_S = 10;
const ANSWER_MS = 100;
const ROUNDS = 5;

const dir = mkdtempSync(join(process.cwd(), '.bench-half-year-'));
const rig = await appRig('practice', dir);
try {
  let from = performance.now();
  const batches = await layOutPast(rig.store, systemClock, 41);
  const laid = (performance.now() - from) / 1000;
  console.log(`${batches} batches, ${rig.store.bench.seq()} entries laid out in ${laid.toFixed(1)} s (wanted under ${LAID_OUT_S})`);
  const of = async <T>(path: string): Promise<T> => (await (await rig.get(path)).json()) as T;
  const list = await of<BatchList>('/api/batches?limit=200');
  const bars = await of<BarsList>('/api/bars?limit=200');
  const paths: Readonly<Record<string, readonly string[]>> = {
    batches: ['/api/batches?limit=50'],
    'a batch': list.batches.map(({ id }) => `/api/batches/${id}`),
    bars: ['/api/bars/open', '/api/bars?limit=200', '/api/bars/waiting'],
    'a bar lot': bars.bars.map(({ id }) => `/api/bars/lot?id=${encodeURIComponent(id)}`),
    orders: ['/api/orders'],
    stores: ['/api/shelf/lot', '/api/shelf/material', '/api/lots'],
    formulas: ['/api/shelf/formula', '/api/workshop'],
    'follow a lot': [...rig.store.shelf.now().lot.keys()].map((id) => `/api/follow/lot?id=${encodeURIComponent(id)}`),
    'follow a bar': bars.bars.map(({ mark }) => `/api/follow/bars?mark=${encodeURIComponent(mark)}`),
  };
  let slowest = 0;
  for (const [name, asked] of Object.entries(paths)) {
    const times: number[] = [];
    for (let round = 0; round < ROUNDS; round += 1) {
      for (const path of asked) {
        from = performance.now();
        const answer = await rig.get(path);
        await answer.arrayBuffer();
        times.push(performance.now() - from);
        if (!answer.ok) throw new Error(`${path} answered ${answer.status}`);
      }
    }
    times.sort((a, b) => a - b);
    const [middle, last] = [times[times.length >> 1] ?? Number.NaN, times.at(-1) ?? Number.NaN];
    slowest = Math.max(slowest, last);
    console.log(
      `${name.padEnd(16)} ${String(times.length).padStart(5)} asked   median ${middle.toFixed(1)} ms   slowest ${last.toFixed(1)} ms`,
    );
  }
  const held = laid < LAID_OUT_S && slowest < ANSWER_MS;
  console.log(`slowest of all ${slowest.toFixed(1)} ms (wanted under ${ANSWER_MS}): ${held ? 'held' : 'NOT held'}`);
  if (!held) process.exitCode = 1;
} finally {
  await rig.close();
  rmSync(dir, { recursive: true, force: true });
}
