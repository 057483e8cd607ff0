import Database from 'better-sqlite3';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { BatchList, Health, HttpProblem } from '#lib/protocol/http';
import type { ProofPage } from '#lib/protocol/proof';
import type { RunningServer } from '#server/server';
import { damaged } from '#server/store/words';
import { optionsFor, serverHere } from '#tests/support/server-rig';
import { recordImage } from '#tests/support/store-image';
import type { Image } from '#tests/support/store-image';

describe('B8: a server whose record is damaged', () => {
  let image: Image;
  let dir: string;
  let server: RunningServer | null = null;
  beforeEach(async () => {
    image = await recordImage('closed');
    dir = image.copy();
  });
  afterEach(async () => {
    await server?.stop();
    server = null;
    rmSync(dir, { recursive: true });
    image.remove();
  });
  const file = (): string => join(dir, 'practice.sqlite');
  const start = async (): Promise<void> => {
    server = await serverHere(optionsFor(dir));
  };
  const get = async <T>(path: string): Promise<{ readonly status: number; readonly body: T }> => {
    const answer = await fetch(`http://127.0.0.1:${server?.port}${path}`);
    return { status: answer.status, body: (await answer.json()) as T };
  };

  it('B8: starts all the same, says so, shows what reads right and nothing else', async () => {
    const db = new Database(file());
    db.exec(`update bench_lines set text = replace(text, '"net":100200', '"net":100300') where seq = 3`);
    db.exec(`update bench_lines set text = replace(text, '"batch":"batch-0"', '"batch":"batch-9"') where seq = 4`);
    db.close();
    await start();
    const { body: health } = await get<Health>('/api/health');
    expect(health.journal).toMatchObject({ ok: false, readOnly: expect.stringContaining('Line 3 of the batch journal was changed') });
    const places = [
      ...[3, 4].map((line) => `Line ${line} of the batch journal was changed after it was written.`),
      'What stands beside line 4 of the bench journal is not what the line says.',
    ];
    expect(health.journal.damage).toEqual(places);
    expect((await get<ProofPage>('/api/proof')).body.damage).toEqual(places);
    expect((await get('/api/batches/batch-1')).status).toBe(200);
    const { status, body } = await get<HttpProblem>('/api/batches/batch-0');
    expect(status).toBeGreaterThanOrEqual(500);
    expect(body).toMatchObject({ error: expect.stringContaining('was changed'), kept: expect.any(String), todo: expect.any(String) });
  });

  it('lists twenty places and says how many more the log has', () => {
    const findings = Array.from({ length: 23 }, (_, n) => `Line ${n}.`);
    expect(damaged('real.sqlite', findings).places).toEqual([...findings.slice(0, 20), 'And 3 more, in the log.']);
  });

  it('B8: starts over a file that is no database, says so, and leaves it', async () => {
    writeFileSync(file(), 'once upon a time '.repeat(1000));
    const before = readFileSync(file());
    await start();
    expect((await get<Health>('/api/health')).body.journal.readOnly).toContain('cannot be read');
    expect((await get<BatchList>('/api/batches?limit=10')).body).toEqual({ batches: [], next: null });
    await server?.stop();
    server = null;
    expect(readFileSync(file()).equals(before)).toBe(true);
  });
});
