import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { runChild } from '#tests/support/child';
import { storeRig } from '#tests/support/store-rig';
import type { Rig } from '#tests/support/store-rig';

const CHILD = join(import.meta.dirname, '../../support/store-child.ts');
const COMMITS = 20;

/** What a program said and what it synced, in order, seen from outside by strace, which tells a call in two halves when another thread comes between. */
const traced = async (trace: string, args: readonly string[]): Promise<readonly string[]> => {
  const child = runChild(CHILD, args, ['strace', '-f', '-y', '-e', 'trace=fsync,fdatasync,write', '-s', '40', '-o', trace]);
  child.process.stdin?.end();
  await child.ended();
  const steps = readFileSync(trace, 'utf8')
    .split('\n')
    .map((line) => / write\(1<[^>]*>, "(\w+)[^"]*\\n"/.exec(line)?.[1] ?? (/f(data)?sync\(\d+<[^>]*-wal>/.test(line) ? 'sync' : null))
    .filter((step) => step !== null);
  const [open, done] = [steps.indexOf('open'), steps.indexOf('done')];
  if (open < 0 || done < 0) throw new Error(`the program did not finish: ${child.said.join(' | ')}`);
  return steps.slice(open + 1, done);
};

describe('B7: commits lost at a power cut', () => {
  let rig: Rig;
  beforeEach(() => {
    rig = storeRig();
  });
  afterEach(() => rig.remove());

  it('B7: every commit is synced after it was asked for and before it is acknowledged', async () => {
    const steps = await traced(join(rig.dir, 'trace'), ['append', rig.dir, String(COMMITS)]);
    expect(steps.join(' ')).toMatch(new RegExp(`^(ask( sync)+ ack ?){${COMMITS}}$`));
  });

  it('B7: the trace can tell: without a sync at every commit it counts fewer', async () => {
    const steps = await traced(join(rig.dir, 'trace'), ['unsynced', join(rig.dir, 'x.sqlite'), String(COMMITS)]);
    expect(steps.filter((step) => step === 'sync').length).toBeLessThan(COMMITS);
  });
});
