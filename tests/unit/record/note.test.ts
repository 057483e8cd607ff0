import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { checkpointText, isSignedBy, keyIdOf, keyLine, keyOfLine, readCheckpoint, readNote, signedNote } from '#lib/record/note';
import { printedHead } from '#lib/record/printed';
import { wordsOf } from '#lib/record/words';
import { base64, fromBase64 } from '#lib/units/base64';
import { ed25519 } from '#server/store/ed25519';
import { testKey } from '#tests/support/keys';

const KEY = testKey();
const raw = KEY.publicKey;
const CHECKPOINT = { origin: 'potwatch/0123456789abcdef/real/bench', seq: 42, link: 'ab'.repeat(32) };
const NOTE = signedNote(CHECKPOINT, raw, (text) => KEY.sign(text));

describe('a signed head', () => {
  it('reads the example of https://c2sp.org/tlog-checkpoint', () => {
    const example = [
      'example.com/behind-the-sofa',
      '20852163',
      'CsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=',
      '',
      '\u2014 example.com/behind-the-sofa Az3grlgtzPICa5OS8npVmf1Myq/5IZniMp+ZJurmRDeOoRDe4URYN7u5/Zhcyv2q1gGzGku9nTo+zyWE+xeMcTOAYQ8=',
      '',
    ].join('\n');
    const read = readNote(example);
    expect(read?.checkpoint).toMatchObject({ origin: 'example.com/behind-the-sofa', seq: 20_852_163 });
    expect(read?.checkpoint.link).toBe('0ac5186a91863e8e1d90c808014aa89bf5da8e3ee1d9f07630f0378f68f1ab62');
    expect(read?.signatures).toMatchObject([{ name: 'example.com/behind-the-sofa', keyId: '033de0ae' }]);
    expect(read?.signatures[0]?.signature.length).toBe(64);
  });

  it('is three lines, an empty one and the signature, under a key id of the name, a newline, 0x01 and the key', () => {
    const id = createHash('sha256').update(`${CHECKPOINT.origin}\n`).update(Buffer.of(1)).update(raw).digest('hex').slice(0, 8);
    expect(keyIdOf(CHECKPOINT.origin, raw)).toBe(id);
    const [origin, size, link, empty, signature = '', end] = NOTE.split('\n');
    expect([origin, size, link, empty, end]).toEqual([CHECKPOINT.origin, '42', base64(Buffer.from('ab'.repeat(32), 'hex')), '', '']);
    const [dash, name, data = ''] = signature.split(' ');
    expect([dash, name]).toEqual(['\u2014', CHECKPOINT.origin]);
    expect(Buffer.from(data, 'base64').subarray(0, 4).toString('hex')).toBe(id);
  });

  it('is believed only with the key it was signed with, for the very text', () => {
    const read = readNote(NOTE);
    if (read === null) throw new Error('unreadable');
    expect(isSignedBy(read, raw, ed25519)).toBe(true);
    expect(isSignedBy(read, new Uint8Array(32).fill(7), ed25519)).toBe(false);
    for (const other of [NOTE.replace('42', '43'), NOTE.replace('/real/', '/test/')]) {
      const forged = readNote(other);
      expect(forged === null || isSignedBy(forged, raw, ed25519), other).toBe(false);
    }
  });

  it.each([
    ['nothing', ''],
    ['no signature', checkpointText(CHECKPOINT)],
    ['a size with a zero in front', NOTE.replace('\n42\n', '\n042\n')],
    ['a link of another length', NOTE.replace('q6ur', '')],
    ['a dash of another kind', NOTE.replace('\u2014', '-')],
    ['no last line end', NOTE.slice(0, -1)],
  ])('is none with %s', (_, text) => {
    expect(readNote(text)).toBeNull();
  });

  it('hands its key on in one line, and takes no line whose id is another', () => {
    const line = keyLine(CHECKPOINT.origin, raw);
    expect(keyOfLine(`${line}\n`)).toEqual({ name: CHECKPOINT.origin, publicKey: raw });
    expect(keyOfLine(line.replace(/\+[0-9a-f]{8}\+/, '+00000000+'))).toBeNull();
    expect(keyOfLine('nothing')).toBeNull();
  });

  it('is printed as eight words and as a code that reads back', () => {
    const printed = printedHead({ ...CHECKPOINT, link: '00ff10'.padEnd(64, '0') });
    expect(printed.words.split(' ')).toHaveLength(8);
    expect(printed.words).toMatch(/^acorn wool \w+ acorn acorn acorn acorn acorn$/);
    expect(readCheckpoint(printed.qr)).toEqual({ ...CHECKPOINT, link: '00ff10'.padEnd(64, '0') });
  });
});

describe('the words of a head', () => {
  const all = Array.from({ length: 256 }, (_, byte) => wordsOf(byte.toString(16).padStart(2, '0').repeat(8)).split(' ')[0] ?? '');

  it('are one for each byte, plain, and told apart by four letters', () => {
    expect(new Set(all.map((word) => word.slice(0, 4))).size).toBe(256);
    for (const word of all) expect(word).toMatch(/^[a-z]{3,8}$/);
  });

  it('never change: what was printed with them must read the same for ever', () => {
    expect(createHash('sha256').update(all.join(' ')).digest('hex')).toBe(
      'e15f04f7f62deee2c8c29ea69da8a5512110b8d9457a14b44a7a3b6246bf5e91',
    );
  });
});

describe('base64', () => {
  it.each(['', 'Zg==', 'Zm8=', 'Zm9v', '+/+/'])('reads %j and writes it again (RFC 4648, section 10)', (text) => {
    const bytes = fromBase64(text);
    expect(bytes === null ? null : base64(bytes)).toBe(text);
  });
  it.each(['Zg', 'Zg=', 'Zh==', 'Z===', '****', 'Zg==Zg=='])('takes no %j', (text) => {
    expect(fromBase64(text)).toBeNull();
  });
});
