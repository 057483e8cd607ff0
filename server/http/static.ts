import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { extname, join, relative, sep } from 'node:path';
import { gzipSync } from 'node:zlib';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.map': 'application/json',
  '.txt': 'text/plain; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.webp': 'image/webp',
  '.ico': 'image/x-icon',
  '.woff': 'font/woff',
  '.woff2': 'font/woff2',
  '.webmanifest': 'application/manifest+json',
};
const COMPRESSED = /^(text\/|application\/(json|manifest)|image\/svg)/;

interface Page {
  readonly body: Buffer;
  readonly type: string;
  readonly etag: string;
  readonly immutable: boolean;
  /** Source list of the inline scripts of an HTML page, for its content security policy. */
  readonly scripts: string;
  gzip: Buffer | null;
}

export interface Pages {
  /** Answers GET and HEAD from the exported pages; a path that is not one of them gets the 404 page. */
  respond(request: Request): Response;
  readonly count: number;
}

/**
 * The exported pages, all read at start: a path is looked up in a table and never in the file system, so that no path can lead
 * out of the folder. A missing folder is an empty table.
 */
export const loadPages = (folder: string): Pages => {
  const table = new Map<string, Page>();
  for (const file of filesUnder(folder)) {
    const path = `/${relative(folder, file).split(sep).join('/')}`;
    table.set(path, readPage(file, path));
  }
  const find = (path: string): Page | undefined =>
    table.get(path) ?? table.get(`${path}.html`) ?? table.get(`${path.replace(/\/$/, '')}/index.html`);

  return {
    count: table.size,
    respond(request) {
      if (request.method !== 'GET' && request.method !== 'HEAD')
        return new Response(null, { status: 405, headers: { allow: 'GET, HEAD' } });
      const url = new URL(request.url);
      const found = find(decoded(url.pathname));
      const page = found ?? table.get('/404.html');
      if (page === undefined) return new Response('Not found', { status: 404, headers: { 'x-content-type-options': 'nosniff' } });
      return answer(request, url, page, found === undefined ? 404 : 200);
    },
  };
};

const answer = (request: Request, url: URL, page: Page, status: number): Response => {
  const headers = new Headers({
    'content-type': page.type,
    etag: page.etag,
    'cache-control': page.immutable ? 'public, max-age=31536000, immutable' : 'no-cache',
    'x-content-type-options': 'nosniff',
    'referrer-policy': 'no-referrer',
    'cross-origin-resource-policy': 'same-origin',
    vary: 'accept-encoding',
  });
  if (page.type.startsWith('text/html')) headers.set('content-security-policy', policy(page.scripts, url.host));
  if (status === 200 && request.headers.get('if-none-match') === page.etag) return new Response(null, { status: 304, headers });
  const packed = COMPRESSED.test(page.type) && /\bgzip\b/.test(request.headers.get('accept-encoding') ?? '');
  if (packed) headers.set('content-encoding', 'gzip');
  const body = packed ? (page.gzip ??= gzipSync(page.body, { level: 9 })) : page.body;
  headers.set('content-length', String(body.length));
  return new Response(request.method === 'HEAD' ? null : new Uint8Array(body), { status, headers });
};

/** Scripts only from us or by hash; the socket is named because older Safari does not count it as 'self'. React writes style attributes. */
const policy = (scripts: string, host: string): string =>
  [
    "default-src 'self'",
    `script-src 'self'${scripts}`,
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "font-src 'self'",
    `connect-src 'self' ws://${host} wss://${host}`,
    "media-src 'self' data: blob:",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join('; ');

const readPage = (file: string, path: string): Page => {
  const body = readFileSync(file);
  const type = TYPES[extname(file)] ?? 'application/octet-stream';
  return {
    body,
    type,
    etag: `"${sha256(body).slice(0, 22)}"`,
    immutable: path.startsWith('/_next/static/'),
    scripts: type.startsWith('text/html') ? inlineScripts(body.toString('utf8')) : '',
    gzip: null,
  };
};

const inlineScripts = (html: string): string => {
  const found = new Set<string>();
  for (const [, attributes = '', code = ''] of html.matchAll(/<script\b([^>]*)>([\s\S]*?)<\/script>/g))
    if (!/\bsrc=/.test(attributes) && code !== '') found.add(` 'sha256-${sha256(Buffer.from(code))}'`);
  return [...found].join('');
};

const sha256 = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('base64');

const decoded = (path: string): string => {
  try {
    return decodeURIComponent(path);
  } catch {
    return path;
  }
};

const filesUnder = (folder: string): readonly string[] => {
  try {
    return readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name));
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return [];
    throw error;
  }
};
