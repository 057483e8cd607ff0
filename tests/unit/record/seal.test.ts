import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { NotCanonical } from '#lib/record/canonical';
import { labelsOf, sealAll } from '#lib/record/lines';
import { EMPTY, leafOf, linkOf, seal, SALT_BYTES } from '#lib/record/seal';

const SALT = new Uint8Array(SALT_BYTES).fill(0xab);
const sha = (...parts: (string | Buffer)[]): string => parts.reduce((hash, part) => hash.update(part), createHash('sha256')).digest('hex');

describe('seal', () => {
  it('hashes a line as SHA-256 does (FIPS 180-4, example "abc")', () => {
    expect(leafOf('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  });

  it('hashes the UTF-8 bytes, not the UTF-16 units', () => {
    expect(leafOf('ö😀')).toBe(sha(Buffer.from('ö😀', 'utf8')));
  });

  it('links over the 64 bytes of previous link and leaf, from 32 zero bytes on', () => {
    const leaf = leafOf('first');
    expect(linkOf(EMPTY.link, leaf)).toBe(sha(Buffer.alloc(32), Buffer.from(leaf, 'hex')));
  });

  it('puts the salt in the line and counts from 1', () => {
    const line = seal(EMPTY, { id: 'a', n: 1 }, SALT);
    expect(line.text).toBe(`{"id":"a","n":1,"salt":"${'ab'.repeat(16)}"}`);
    expect(line).toMatchObject({ seq: 1, leaf: sha(line.text) });
    expect(seal(line, { id: 'b' }, SALT).seq).toBe(2);
  });

  it('makes two lines of the same value differ by their salt alone', () => {
    expect(seal(EMPTY, { id: 'a' }, SALT).leaf).not.toBe(seal(EMPTY, { id: 'a' }, new Uint8Array(SALT_BYTES)).leaf);
  });

  it.each([[null], ['text'], [[1]], [{ salt: 'mine' }]])('refuses %j', (value) => {
    expect(() => seal(EMPTY, value, SALT)).toThrow(NotCanonical);
  });

  it('refuses a salt of another length', () => {
    expect(() => seal(EMPTY, { id: 'a' }, new Uint8Array(8))).toThrow(RangeError);
  });
});

describe('sealAll', () => {
  const entry = { id: 'e1', batch: 'b1', version: 1, kind: 'noted', value: { id: 'e1', batch: 'b1', version: 1, kind: 'noted' } };

  it('chains the entries of one append', () => {
    const second = { ...entry, id: 'e2', version: 2, value: { ...entry.value, id: 'e2', version: 2 } };
    const [one, two] = sealAll(EMPTY, [entry, second], () => SALT);
    expect(two?.link).toBe(linkOf(one?.link ?? '', two?.leaf ?? ''));
  });

  it.each([
    ['id', { ...entry, id: 'other' }],
    ['batch', { ...entry, batch: 'other' }],
    ['batch', { ...entry, batch: null }],
    ['version', { ...entry, version: 2 }],
    ['kind', { ...entry, kind: 'other' }],
  ])('refuses a %s beside the value that the sealed value does not say', (label, wrong) => {
    expect(() => sealAll(EMPTY, [wrong], () => SALT)).toThrow(label);
  });

  it('reads a missing batch and version as none', () => {
    expect(labelsOf({ id: 'a', kind: 'k' })).toEqual({ id: 'a', batch: null, version: null, kind: 'k' });
    expect(labelsOf({ batch: 'b' })).toBeNull();
    expect(labelsOf({ id: 'a', batch: 3 })).toBeNull();
  });
});
