import { describe, expect, it } from 'vitest';
import { grams } from '#lib/units/mass';
import { benchRig, entriesIn, SCALE, TABLET } from '#tests/support/bench-rig';
import type { BenchRig } from '#tests/support/bench-rig';

/** The oils pot set down, zeroed, and some of the first oil in it. */
const pouring = async (): Promise<BenchRig> => {
  const rig = benchRig();
  await rig.start();
  const alive = (shown: number) => (): void => {
    rig.bench.alive(TABLET, true);
    rig.weight(shown);
  };
  await rig.pass(3_000, alive(0));
  await rig.pass(4_000, alive(642.5));
  await rig.pass(3_000, alive(700));
  expect(rig.bench.frame().cue).toMatchObject({ line: 'coconut', poured: grams(57.5) });
  return rig;
};

describe('what was counted from a weight that is none any more', () => {
  it('A1: is no number in any frame: not after a weight beyond what the scale can carry', async () => {
    const rig = await pouring();
    rig.weight(6_000);
    const { scales, cue } = rig.bench.frame();
    expect(scales[0]?.gross).toBeNull();
    expect(cue).toMatchObject({ poured: null, total: null, left: null, overshoot: null });
  });

  it('A1: is no number in any frame: not when the scale has gone late since the conductor last looked', async () => {
    const rig = await pouring();
    const before = rig.frames.length;
    rig.stand(200);
    rig.inputs.tick();
    rig.stand(240);
    rig.temperature('oils', 44);
    rig.stand(240);
    rig.temperature('oils', 45);
    const shown = rig.frames.slice(before).map(({ scales, cue }) => [scales[0]?.gross ?? null, cue.poured]);
    expect(shown.at(-1)).toEqual([null, null]);
    for (const [gross, poured] of shown) expect(gross === null && poured !== null).toBe(false);
  });
});

describe('a scale that has gone silent', () => {
  it('checks nothing: the mass it last said is not what it says now', async () => {
    const rig = benchRig();
    await rig.start();
    await rig.pass(3_000, () => rig.weight(200));
    const check = { kind: 'check-scale', instrument: SCALE, nominal: 200_000 } as const;
    expect(await rig.intent(check)).toMatchObject({ ok: true });
    await rig.pass(1_000);
    rig.bench.alive(TABLET, true);
    expect(await rig.intent(check)).toMatchObject({ ok: false, refusal: { code: 'not-settled' } });
  });
});

const checkWith = (nominal: number) => ({ kind: 'check-scale', instrument: SCALE, nominal: grams(nominal) }) as const;
const stand = (rig: BenchRig, shown: number) =>
  rig.pass(8_000, () => {
    rig.bench.alive(TABLET, true);
    rig.weight(shown);
  });
const checked = async (rig: BenchRig): Promise<number> =>
  (await entriesIn(rig.journal)).filter(({ kind }) => kind === 'scale-checked').length;

describe('a scale is checked with one mass alone', () => {
  it('not with a vessel that stands there by the record', async () => {
    const rig = await pouring();
    expect(await rig.intent(checkWith(700))).toMatchObject({
      ok: false,
      refusal: { code: 'pan-not-empty', params: { instrument: SCALE, vessel: 'oils pot' } },
    });
    expect(await checked(rig)).toBe(0);
    expect(rig.bench.frame().scales[0]?.checked).toBe(false);
  });

  it('not by a difference no scale has: past 5 % and past 20 divisions', async () => {
    const rig = benchRig();
    await rig.start();
    await stand(rig, 842.5);
    expect(await rig.intent(checkWith(200))).toMatchObject({
      ok: false,
      refusal: { code: 'check-unlikely', params: { instrument: SCALE, nominal: 200_000, shown: 842_500 } },
    });
    await stand(rig, 210.2);
    expect(await rig.intent(checkWith(200))).toMatchObject({ ok: false, refusal: { code: 'check-unlikely' } });
    await stand(rig, 0);
    expect(await rig.intent(checkWith(200))).toMatchObject({ ok: false, refusal: { code: 'check-unlikely' } });
    expect(await checked(rig)).toBe(0);
    await stand(rig, 209.8);
    expect(await rig.intent(checkWith(200))).toMatchObject({ ok: true });
    // 2 g are 20 divisions of 0.1 g: a small mass may be off by as much.
    await stand(rig, 11.9);
    expect(await rig.intent(checkWith(10))).toMatchObject({ ok: true });
    expect(rig.bench.frame().scales[0]?.checked).toBe(true);
  });
});
