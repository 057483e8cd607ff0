import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { monotonic, wall } from '#lib/units/time';
import { createPairing } from '#server/live/pairing';
import { isHere } from '#server/live/who';

describe('A13: a screen elsewhere is opened with the one-time code', () => {
  let folder: string;
  let time: number;
  const open = () => createPairing({ folder, clock: { now: () => monotonic(time), wall: () => wall(time) }, onCode: () => {} });
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'pairing-'));
    time = 1_000_000;
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  it('takes the code once', () => {
    const pairing = open();
    const code = pairing.code();
    expect(pairing.redeem(code).ok).toBe(true);
    expect(pairing.redeem(code)).toEqual({ ok: false, waitMs: 0 });
  });

  it('reads the code as a person types it', () => {
    const pairing = open();
    expect(pairing.redeem(` ${pairing.code().toLowerCase().replace('-', ' ')} `).ok).toBe(true);
  });

  it('knows the screen again, after a restart too', () => {
    const first = open();
    const paired = first.redeem(first.code());
    const token = paired.ok ? paired.token : '';
    expect(first.knows(token)).toBe(true);
    expect(open().knows(token)).toBe(true);
    expect(statSync(join(folder, 'screens.key')).mode & 0o777).toBe(0o600);
  });

  it('knows no altered, foreign or outdated token', () => {
    const pairing = open();
    const paired = pairing.redeem(pairing.code());
    const token = paired.ok ? paired.token : '';
    const [id = '', until = '', mark = ''] = token.split('.');
    for (const other of [
      null,
      '',
      'x',
      `${id}.${Number(until) + 1}.${mark}`,
      `${id}.${until}.${mark.slice(0, -1)}A${mark.slice(-1)}`,
      `${token}x`,
    ])
      expect(pairing.knows(other)).toBe(false);
    time += 91 * 86_400_000;
    expect(pairing.knows(token)).toBe(false);
  });

  it('makes whoever guesses wait, longer each time, the right code included', () => {
    const pairing = open();
    for (let i = 0; i < 4; i += 1) expect(pairing.redeem('WRNG-WRNG')).toEqual({ ok: false, waitMs: 0 });
    expect(pairing.redeem('WRNG-WRNG')).toEqual({ ok: false, waitMs: 10_000 });
    expect(pairing.redeem(pairing.code()).ok).toBe(false);
    time += 10_000;
    expect(pairing.redeem('WRNG-WRNG')).toEqual({ ok: false, waitMs: 20_000 });
    time += 20_000;
    expect(pairing.redeem(pairing.code()).ok).toBe(true);
  });
});

describe('A13: who is on this machine', () => {
  const HERE = { host: 'localhost:4173' };
  it.each([
    ['127.0.0.1', HERE, true],
    ['::1', { host: '[::1]:4173', origin: 'http://[::1]:4173' }, true],
    ['::ffff:127.0.0.1', { host: '127.0.0.1', origin: 'http://127.0.0.1', referer: 'http://127.0.0.1/bench?id=1' }, true],
    ['192.168.1.20', HERE, false],
    ['::ffff:192.168.1.20', HERE, false],
    [undefined, HERE, false],
    // A proxy on this machine, by what it adds, or by the name that was asked for, which it passes on or its visitor's page says.
    ['127.0.0.1', { ...HERE, 'x-forwarded-for': '203.0.113.9' }, false],
    ['127.0.0.1', { ...HERE, 'x-forwarded-proto': 'https' }, false],
    ['127.0.0.1', { ...HERE, forwarded: 'for=203.0.113.9' }, false],
    ['127.0.0.1', { ...HERE, via: '1.1 front' }, false],
    ['127.0.0.1', { host: 'bench.test' }, false],
    ['127.0.0.1', { ...HERE, origin: 'https://bench.test' }, false],
    ['127.0.0.1', { ...HERE, referer: 'https://bench.test/bench' }, false],
    ['127.0.0.1', { ...HERE, origin: 'null' }, false],
    ['127.0.0.1', {}, false],
  ])('%s with %j: %s', (address, headers, here) => {
    expect(isHere(address, headers)).toBe(here);
  });
});
