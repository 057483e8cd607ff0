import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { chainText, PARTS, readChain } from '#lib/record/bundle/layout';
import { printedHead } from '#lib/record/printed';
import { packed } from '#server/bundle/pack';
import type { Parts } from '#server/bundle/gather';
import { appendOf, entryOf } from '#tests/support/appends';
import { keptRecord, unpacked } from '#tests/support/proof-rig';
import type { Kept } from '#tests/support/proof-rig';
import { run } from '#server/verify/run';
import { storeRig } from '#tests/support/store-rig';
import type { Rig } from '#tests/support/store-rig';
import { tool, toolWell } from '#tests/support/tools';

const MADE = new Date(2026, 10, 28);
const ROOT = join(import.meta.dirname, '../../..');

/** The check as the README has it, with the bundle's own name. */
const documented = (): string => {
  const readme = readFileSync(join(ROOT, 'README.md'), 'utf8');
  const block = /```sh\n(unzip [\s\S]*?)```/.exec(readme)?.[1];
  if (block === undefined) throw new Error('the README tells no check without us');
  return `set -e\n${block.replace('26-11-bundle.zip', 'b.zip')}`;
};

const byReadme = async (of: Parts) => {
  const folder = unpacked(new Map());
  writeFileSync(join(folder.dir, 'b.zip'), await packed(of, MADE));
  const said = tool('bash', ['-c', documented()], { cwd: folder.dir });
  folder.remove();
  return said;
};
const byPython = (of: Parts, ...heads: readonly string[]) => {
  const folder = unpacked(of);
  for (const [at, head] of heads.entries()) writeFileSync(join(folder.dir, `head-${at}`), head);
  const said = tool('python3', [PARTS.verifier, ...heads.map((_, at) => `head-${at}`)], { cwd: folder.dir });
  folder.remove();
  return said;
};

const lines = (text: string): string[] => text.split('\n').slice(0, -1);
const joined = (all: readonly string[]): string => all.map((line) => `${line}\n`).join('');
/** As `npm run verify` says it. */
const verify = (...args: readonly string[]): { readonly code: number; readonly out: string } => {
  const said: string[] = [];
  const code = run(args, (line) => said.push(line));
  return { code, out: said.join('\n') };
};

describe('a bundle checked by what is not ours', () => {
  let rig: Rig;
  let kept: Kept;
  let parts: Parts;
  beforeAll(async () => {
    rig = storeRig();
    kept = await keptRecord(rig.options);
    await kept.make('before');
    // Between two heads there is more than one batch.
    await kept.store.bench.append(appendOf([entryOf('other', 1), entryOf('other', 2)]));
    await kept.make('ours', { struckLine: 1 });
    await kept.make('after');
    parts = await kept.bundle('ours');
  });
  afterAll(async () => {
    await kept.close();
    rig.remove();
  });

  const change = (name: string, how: (text: string) => string): Parts =>
    new Map([...parts].map(([one, bytes]) => [one, one === name ? new TextEncoder().encode(how(Buffer.from(bytes).toString())) : bytes]));
  it('the documented check passes, and fails by name when an entry, the chain or the head was changed', async () => {
    expect(await byReadme(parts)).toEqual({ code: 0, out: expect.stringContaining('these entries are what the signed head was made of') });
    expect(await byReadme(change(PARTS.entries, (text) => text.replace('"net":101200', '"net":101201')))).toMatchObject({
      code: 1,
      out: expect.stringContaining('entries.jsonl: FAILED'),
    });
    const head = await byReadme(change(PARTS.after, (text) => text.replace(/\n\d+\n/, '\n1\n')));
    expect(head.code).toBe(1);
    expect(head.out).toContain('head-after.txt: FAILED');
  });

  it('the checker that goes with it finds the five kinds of tampering, whoever mends the sums as well', () => {
    expect(byPython(parts)).toMatchObject({ code: 0, out: expect.stringContaining('nothing is wrong') });
    const tampered: readonly (readonly [string, (all: string[]) => string[], RegExp])[] = [
      ['change', (all) => all.with(2, (all[2] ?? '').replace('"net":100200', '"net":100201')), /entry 3 is not what line \d+ was made of/],
      ['delete', (all) => all.toSpliced(2, 1), /entry 3 is not what line \d+ was made of/],
      ['insert', (all) => all.toSpliced(2, 0, '{"id":"forged"}'), /entry 3 is not what line \d+ was made of/],
      ['reorder', (all) => all.toSpliced(1, 2, all[2] ?? '', all[1] ?? ''), /entry 2 is not what line \d+ was made of/],
      ['truncate', (all) => all.slice(0, -2), /the entry of line \d+ is missing/],
    ];
    for (const [name, how, found] of tampered) {
      const said = byPython(toolSums(change(PARTS.entries, (text) => joined(how(lines(text))))));
      expect(said.code, name).toBe(1);
      expect(said.out, name).toMatch(found);
      expect(said.out, name).not.toContain('entries.jsonl was changed');
    }
    const cut = byPython(toolSums(change(PARTS.chain, (text) => joined(lines(text).slice(0, -1)))));
    expect(cut).toMatchObject({ code: 1, out: expect.stringContaining('the chain does not end in the signed head') });
  });

  it('newest entries passed off as another batch’s are found by the seal, with the checker and with the documented check', async () => {
    const rows = lines(Buffer.from(parts.get(PARTS.chain) ?? []).toString());
    const own = new Set(rows.filter((row) => row.endsWith(' own')).slice(-3));
    const passedOff = rows.map((row) => (own.has(row) ? row.replace(/own$/, 'other') : row));
    const cut = change(PARTS.entries, (text) => joined(lines(text).slice(0, -3)));
    const forged = toolSums(new Map([...cut, [PARTS.chain, new TextEncoder().encode(joined(passedOff))]]));
    const found = { code: 1, out: expect.stringContaining('the parts are not those the bundle was sealed with') };
    expect(byPython(forged)).toMatchObject({
      ...found,
      out: expect.stringMatching(/^WRONG: the parts are not[^\n]*\nkey believed[^\n]*\n[^\n]*\n\d+ entries/),
    });
    expect(await byReadme(forged)).toMatchObject(found);
  });

  it('the checker believes no head without its signature, and holds the chain against a kept one', () => {
    const checkpoint = kept.store.proof.covering('bench', 1)?.checkpoint ?? { origin: '', seq: 0, link: '' };
    const before = printedHead(checkpoint).qr;
    expect(byPython(parts, before)).toMatchObject({ code: 0 });
    const other = printedHead({ ...checkpoint, link: 'ab'.repeat(32) }).qr;
    expect(byPython(parts, other)).toMatchObject({ code: 1, out: expect.stringContaining('the head in head-0 is not in this chain') });
    const forged: readonly Parts[] = [
      change(PARTS.keys, (text) => text.replace(/\+\w{8}\+/, '+00000000+')),
      // One letter in the middle of the signature.
      change(PARTS.after, (text) => text.replace(/(.{40})\n$/, (end) => (end.startsWith('A') ? 'B' : 'A') + end.slice(1))),
    ];
    for (const parts of forged)
      expect(byPython(toolSums(parts))).toMatchObject({ code: 1, out: expect.stringContaining('head-after.txt is not signed') });
  });

  it('npm run verify says the same of the file, needs no data folder, and names what is wrong', async () => {
    const folder = unpacked(new Map());
    const put = async (name: string, of: Parts): Promise<string> => {
      writeFileSync(join(folder.dir, name), await packed(of, MADE));
      return join(folder.dir, name);
    };
    const head = join(folder.dir, 'kept.txt');
    writeFileSync(head, parts.get(PARTS.before) ?? '');
    const sound = await put('sound.zip', parts);
    expect(verify(sound, '--head', head)).toMatchObject({ code: 0, out: expect.stringContaining('goes through the kept head') });
    // Which key it believed comes first, and that it did so comes last, unless the key or a head is known from elsewhere.
    const alone = verify(sound).out.split('\n');
    const key =
      Buffer.from(parts.get(PARTS.keys) ?? [])
        .toString()
        .split('\n')[0] ?? '';
    const print = createHash('sha256')
      .update(Buffer.from(key.split('+').slice(2).join('+'), 'base64').subarray(1))
      .digest('hex');
    expect(alone[0]).toMatch(/^Key {4}believed as it stands in the bundle: potwatch\//);
    expect(alone[1]?.replaceAll(' ', '')).toBe(`fingerprint(SHA-256)${print}`);
    expect(alone.slice(-3).join(' ')).toMatch(/WARNING {2}It believed the bundle’s own key/);
    expect(byPython(parts).out).toMatch(new RegExp(`${print}[\\s\\S]*WARNING: it believed the bundle's own key`));
    const given = verify(sound, '--key', key);
    expect(given).toMatchObject({ code: 0, out: expect.stringMatching(/^Key {4}as it was given: potwatch\//) });
    for (const known of [given.out, verify(sound, '--head', head).out]) expect(known).not.toContain('WARNING');
    const chain = readChain(Buffer.from(parts.get(PARTS.chain) ?? []).toString());
    if (typeof chain === 'number') throw new Error('no chain');
    const wrong = await put(
      'wrong.zip',
      change(PARTS.chain, () => chainText({ ...chain, rows: chain.rows.toSpliced(1, 1) })),
    );
    const said = verify(wrong);
    expect(said.code).toBe(1);
    expect(said.out).toMatch(/WRONG {2}Lines \d+ to \d+ of the chain were taken out\./);
    expect(said.out).toContain('chain.txt was changed after the bundle was made.');
    writeFileSync(join(folder.dir, 'half.zip'), readFileSync(sound).subarray(0, 2000));
    expect(() => verify(join(folder.dir, 'half.zip'))).toThrow('only a part of one');
    // Once as a person runs it.
    const program = ['--import', 'tsx', join(ROOT, 'server/verify/main.ts')];
    expect(tool(process.execPath, [...program, join(folder.dir, 'half.zip')])).toMatchObject({ code: 2 });
    expect(toolWell(process.execPath, [...program, sound])).toContain('Nothing is wrong');
    folder.remove();
  });

  it('holds no private key and no bytes but those its entries name', () => {
    const secret = readFileSync(join(rig.dir, 'practice.key'), 'utf8').split('\n')[1] ?? '';
    const raw = Buffer.from(secret, 'base64').subarray(-32);
    for (const [name, bytes] of parts) {
      const at = Buffer.from(bytes);
      expect([at.includes(secret), at.includes(raw), at.includes('PRIVATE KEY')], name).toEqual([false, false, false]);
    }
    const blobs = [...parts.keys()].filter((name) => name.startsWith(PARTS.blobs));
    expect(blobs).toHaveLength(3);
    expect(Buffer.from(parts.get(PARTS.chain) ?? []).toString()).toContain(' other\n');
    expect(Buffer.from(parts.get(PARTS.entries) ?? []).toString()).not.toContain('"batch":"other"');
  });
});

/** The same parts with sums that fit them. */
const toolSums = (of: Parts): Parts => {
  const folder = unpacked(of);
  const names = [...of.keys()].filter((name) => name !== PARTS.sums && name !== PARTS.seal);
  const text = toolWell('sha256sum', names, { cwd: folder.dir });
  folder.remove();
  return new Map([...of, [PARTS.sums, new TextEncoder().encode(text)]]);
};
