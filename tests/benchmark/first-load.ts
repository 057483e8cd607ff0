/**
 * `npm run bench:size`: what a browser fetches before a route can be used, JavaScript only, gzip. Reads the diagnostics of the last
 * `next build`; exits 1 when the bench is over its limit.
 */
import { existsSync, readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';

const STATS = '.next/diagnostics/route-bundle-stats.json';
/** Kilobytes of 1000 bytes. The bench is opened on a cheap tablet by a QR code. */
const LIMITS: Readonly<Record<string, number>> = { '/bench': 185 };

interface Route {
  readonly route: string;
  readonly firstLoadChunkPaths: readonly string[];
}

if (!existsSync(STATS)) {
  console.error(`${STATS} is missing: run \`npx next build\` first`);
  process.exit(1);
}
const routes = JSON.parse(readFileSync(STATS, 'utf8')) as readonly Route[];
const sizes = new Map<string, number>();
const sizeOf = (path: string): number => {
  const size = sizes.get(path) ?? gzipSync(readFileSync(path), { level: 9 }).length;
  sizes.set(path, size);
  return size;
};
let over = false;
for (const { route, firstLoadChunkPaths } of routes.toSorted((a, b) => a.route.localeCompare(b.route))) {
  const kilobytes = firstLoadChunkPaths.reduce((sum, path) => sum + sizeOf(path), 0) / 1000;
  const limit = LIMITS[route];
  const judged = limit === undefined ? '' : kilobytes <= limit ? `  within ${limit}` : `  OVER ${limit}`;
  over ||= limit !== undefined && kilobytes > limit;
  console.log(`${route.padEnd(24)} ${kilobytes.toFixed(1).padStart(7)} kB gzip${judged}`);
}
for (const route of Object.keys(LIMITS))
  if (!routes.some((built) => built.route === route)) {
    console.error(`${route} was not built`);
    over = true;
  }
process.exitCode = over ? 1 : 0;
