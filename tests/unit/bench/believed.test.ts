import { describe, expect, it } from 'vitest';
import { grams } from '#lib/units/mass';
import { benchRig, SCALE, TABLET } from '#tests/support/bench-rig';
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
