import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import type { AfterwardsWant, PhotoAnswer } from '#lib/protocol/afterwards';
import type { BatchList, BatchPage } from '#lib/protocol/http';
import { storyOf } from '#lib/words/review/told';
import { servedRecord } from '#tests/support/served-record';

/** A camera's picture on its side, 2400 × 1800 once upright, with the place it was taken at. */
const photographed = (): Promise<Buffer> =>
  sharp({ create: { width: 1800, height: 2400, channels: 3, background: '#b0a080' } })
    .jpeg()
    .withMetadata({
      orientation: 6,
      exif: {
        IFD0: { Copyright: 'Somebody', Make: 'A camera' },
        IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '51/1 30/1 3230/100', GPSLongitudeRef: 'W', GPSLongitude: '0/1 7/1 4366/100' },
      },
    })
    .toBuffer();

describe('what is said of a batch afterwards', () => {
  const { at, get, post } = servedRecord([{ batch: 'batch-old', lines: 2, stripBytes: 64 }]);
  const review = (): Promise<BatchPage> => get('/batches/batch-old');
  const deviating = async (): Promise<readonly string[]> => (await get<BatchList>('/batches?deviation=stated')).batches.map(({ id }) => id);
  let tries = 0;
  const say = (want: AfterwardsWant, intent = `said-${(tries += 1)}-000000`) =>
    post<{ repeated?: boolean; error?: string; kept?: string }>('/batches/batch-old/afterwards', { intent, want });
  const send = (bytes: BodyInit) => fetch(at('/photos'), { method: 'POST', body: bytes });

  it('a note to a closed batch is entered once, however often it is sent', async () => {
    expect(await say({ kind: 'note', text: 'Customer says it lathers well.' }, 'note-000001')).toMatchObject({ status: 200 });
    expect(await say({ kind: 'note', text: 'Customer says it lathers well.' }, 'note-000001')).toMatchObject({ body: { repeated: true } });
    expect((await say({ kind: 'note', text: '  ' })).status).toBe(400);
    const notes = (await review()).story.filter(({ code }) => code === 'noted');
    expect(notes.map(({ params }) => params['text'])).toEqual(['Customer says it lathers well.']);
  });

  it('a deviation is written down as one: counted, lettered in the story, and found by it', async () => {
    expect(await deviating()).toEqual([]);
    expect((await say({ kind: 'note', text: 'Soda ash on the top.', deviation: true })).status).toBe(200);
    const after = await review();
    expect(after.summary.stated).toBe(1);
    const letters = storyOf(after).flatMap(({ code, letter, params }) => (code === 'noted' ? [[params['text'], letter !== null]] : []));
    expect(letters).toEqual([
      ['Customer says it lathers well.', false],
      ['Soda ash on the top.', true],
    ]);
    expect(await deviating()).toEqual(['batch-old']);
  });

  it('a weight put right shows both values for ever, with who and why; nothing weighed is changed', async () => {
    const before = await review();
    const [line] = before.lines;
    const poured = line?.contributions[0];
    const want = { kind: 'amend-weight', entry: poured?.entry ?? '', is: 99_000, why: 'the jug was on the pan' } as const;
    expect((await say(want)).status).toBe(200);
    // What stands there already, what is no weight of it, and what has no reason.
    expect(await say(want)).toMatchObject({ status: 409, body: { error: expect.stringContaining('already') } });
    expect((await say({ ...want, entry: 'nobody' })).status).toBe(409);
    expect((await say({ ...want, is: 98_000, why: ' ' })).status).toBe(400);
    expect((await say({ ...want, is: 98_000 })).status).toBe(200);
    const after = await review();
    expect(after.amendments).toMatchObject([
      { what: 'weight', line: line?.line, was: '100200', is: '99000', why: 'the jug was on the pan', by: 'maker' },
      { what: 'weight', was: '99000', is: '98000' },
    ]);
    expect(after.lines[0]?.contributions[0]).toMatchObject({ net: 100_200, amended: 98_000 });
    expect(after.lines[0]?.actual).toBe(line?.actual);
    expect(after.poured).toEqual(before.poured);
    expect(after.lots).toEqual(before.lots.map((one) => (one.lot === 'lot-0' ? { ...one, mass: 98_000 } : one)));
    expect(after.story.filter(({ code }) => code === 'amended')).toHaveLength(2);
    expect((await say({ kind: 'amend-temperature', of: 'lye', is: 41_000, why: 'misread' })).status).toBe(409);
    expect((await say({ kind: 'amend-other', of: 'room', was: '', is: '17 °C', why: 'left out' })).status).toBe(200);
  });

  it('keeps a picture upright, small and without what the camera wrote into it', async () => {
    const original = await photographed();
    const taken = await sharp(original).metadata();
    expect([taken.orientation, taken.exif?.includes('Somebody'), original.includes('Exif')]).toEqual([6, true, true]);
    const answer = await send(new Uint8Array(original));
    expect(answer.status).toBe(200);
    const { sha256 } = (await answer.json()) as PhotoAnswer;
    const shown = await fetch(at(`/photos/${sha256}`));
    expect(shown.headers.get('content-type')).toBe('image/jpeg');
    const bytes = Buffer.from(await shown.arrayBuffer());
    const { width, height, exif, xmp, iptc, orientation } = await sharp(bytes).metadata();
    expect({ width, height, exif, xmp, iptc, orientation }).toEqual({ width: 1600, height: 1200 });
    for (const word of ['Exif', 'GPS', 'Somebody', 'A camera']) expect(bytes.includes(word), word).toBe(false);
    expect((await say({ kind: 'keep-photo', sha256, of: 'top', caption: 'after a day' })).status).toBe(200);
    expect((await review()).pictures).toMatchObject([{ sha256, of: 'top', caption: 'after a day' }]);
  });

  it('keeps nothing of what is no picture, is damaged, too large or not kept before', async () => {
    const whole = new Uint8Array(await photographed());
    const drawing = '<svg xmlns="http://www.w3.org/2000/svg"><image href="file:///etc/passwd"/></svg>';
    const plain = '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><rect width="9" height="9"/></svg>';
    for (const bytes of [drawing, plain, '%PDF-1.4', '', whole.slice(0, 900)]) {
      const answer = await send(bytes);
      expect(answer.status).toBe(415);
      expect(await answer.json()).toMatchObject({ error: expect.any(String), kept: 'Nothing was changed.', todo: expect.any(String) });
    }
    expect((await send(new Uint8Array(15 * 1024 * 1024 + 1))).status).toBe(413);
    expect((await say({ kind: 'keep-photo', sha256: 'a'.repeat(64), of: '', caption: '' })).status).toBe(404);
    expect((await fetch(at(`/photos/${'a'.repeat(64)}`))).status).toBe(404);
    expect((await review()).pictures).toHaveLength(1);
  });
});
