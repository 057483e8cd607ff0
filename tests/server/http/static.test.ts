import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loadPages } from '#server/http/static';
import type { Pages } from '#server/http/static';

const hash = (code: string) => `'sha256-${createHash('sha256').update(code).digest('base64')}'`;

describe('the exported pages', () => {
  let folder: string;
  let pages: Pages;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'pages-'));
    const out = join(folder, 'out');
    mkdirSync(join(out, '_next/static'), { recursive: true });
    writeFileSync(join(folder, 'secret.txt'), 'secret');
    writeFileSync(join(out, 'index.html'), '<script>one()</script><script src="/x.js"></script><script id="a">two()</script>home');
    writeFileSync(join(out, 'bench.html'), 'bench');
    writeFileSync(join(out, '404.html'), 'lost');
    writeFileSync(join(out, '_next/static/a.js'), 'run();'.repeat(100));
    writeFileSync(join(out, 'font.woff2'), 'w');
    pages = loadPages(out);
  });
  afterAll(() => rmSync(folder, { recursive: true }));
  const get = (path: string, headers: Record<string, string> = {}, method = 'GET') =>
    pages.respond(new Request(`http://bench.test:4173${path}`, { headers, method }));

  it.each([
    ['/', 200, 'text/html; charset=utf-8'],
    ['/bench', 200, 'text/html; charset=utf-8'],
    ['/bench?id=1', 200, 'text/html; charset=utf-8'],
    ['/_next/static/a.js', 200, 'text/javascript; charset=utf-8'],
    ['/font.woff2', 200, 'font/woff2'],
    ['/nowhere', 404, 'text/html; charset=utf-8'],
  ])('%s: %i, %s', (path, status, type) => {
    const answer = get(path);
    expect(answer.status).toBe(status);
    expect(answer.headers.get('content-type')).toBe(type);
    expect(answer.headers.get('x-content-type-options')).toBe('nosniff');
  });

  it('keeps hashed files for ever and asks again for pages', () => {
    expect(get('/_next/static/a.js').headers.get('cache-control')).toContain('immutable');
    expect(get('/').headers.get('cache-control')).toBe('no-cache');
    const etag = get('/').headers.get('etag') ?? '';
    expect(get('/', { 'if-none-match': etag }).status).toBe(304);
  });

  it.each([
    '/../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/%2e%2e%2fsecret.txt',
    '/_next/../../secret.txt',
    '/..\\secret.txt',
    '/%',
    '/%00',
  ])('leads nowhere: %s', async (path) => {
    const answer = get(path);
    expect(answer.status).toBe(404);
    expect(await answer.text()).toBe('lost');
  });

  it('lets no script run but ours: by file, or by the hash of what the page holds', () => {
    const policy = get('/').headers.get('content-security-policy') ?? '';
    expect(policy).toContain(`script-src 'self' ${hash('one()')} ${hash('two()')};`);
    expect(policy).not.toMatch(/script-src[^;]*unsafe/);
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).toContain('ws://bench.test:4173');
  });

  it('packs text when asked to, and answers HEAD without a body', async () => {
    const packed = get('/_next/static/a.js', { 'accept-encoding': 'gzip, br' });
    expect(packed.headers.get('content-encoding')).toBe('gzip');
    expect(gunzipSync(Buffer.from(await packed.arrayBuffer())).toString()).toBe('run();'.repeat(100));
    expect(get('/font.woff2', { 'accept-encoding': 'gzip' }).headers.get('content-encoding')).toBeNull();
    expect(await get('/bench', {}, 'HEAD').text()).toBe('');
    expect(get('/bench', {}, 'POST').status).toBe(405);
  });

  it('is empty where nothing was built', () => {
    expect(loadPages(join(folder, 'none')).count).toBe(0);
  });
});
