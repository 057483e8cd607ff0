import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { tempFolder } from '#tests/support/server-rig';

it('a start without what npm ci installs says so, and shows no stack', () => {
  const folder = tempFolder();
  for (const room of ['app', 'lib', 'server', 'hardware']) mkdirSync(join(folder.path, room));
  for (const file of ['server/start.mjs', 'server/bundling.mjs']) cpSync(file, join(folder.path, file));
  const { status, stderr } = spawnSync(process.execPath, [join(folder.path, 'server/start.mjs')], { cwd: folder.path, encoding: 'utf8' });
  folder.remove();
  expect(status).toBe(1);
  expect(stderr).toMatch(/^potwatch: .*'esbuild'.*\. Run "npm ci"[^\n]*\n$/);
});
