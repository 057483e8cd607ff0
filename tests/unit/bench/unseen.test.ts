import { describe, expect, it } from 'vitest';
import { OFFER_PIECES_MS } from '#lib/bench/conductor/offer';
import { as } from '#lib/units/id';
import { benchRig, entriesIn, PHONE, TABLET } from '#tests/support/bench-rig';

const COCONUT = as<never>('coconut');
const POT = as<never>('oils-pot');

/** A bench whose first line has just been poured and stands still: the moment before it is accepted is next. */
const poured = async () => {
  const rig = benchRig();
  /** What the two pages say of themselves with every look. */
  const page = { visible: true, covered: false };
  const stands = (ms: number, shown: () => number): Promise<void> =>
    rig.pass(ms, () => {
      rig.bench.alive(TABLET, page.visible, undefined, page.covered);
      // What another page says of itself is nothing to this weight.
      rig.bench.alive(PHONE, true, undefined, false);
      rig.weight(shown());
    });
  const accepted = async (): Promise<boolean> => (await entriesIn(rig.journal)).some(({ kind }) => kind === 'weight-accepted');

  await stands(2_500, () => 0);
  await rig.start();
  await stands(1_000, () => 0);
  const batch = rig.bench.batch();
  const empty = (batch?.vessels[POT]?.plan.empty ?? NaN) / 1000;
  const target = (batch?.lines[COCONUT]?.plan.target ?? NaN) / 1000;
  await stands(5_000, () => empty);
  let inPot = 0;
  page.covered = true;
  await stands(16_000, () => empty + (inPot = Math.min(target, inPot + 2)));
  page.covered = false;
  return { rig, page, accepted, stands: (ms: number) => stands(ms, () => empty + target) };
};

it('no weight is accepted by itself while the leading page is covered or hidden; the moment begins anew when it shows it', async () => {
  const { rig, page, accepted, stands } = await poured();
  page.covered = true;
  await stands(3 * OFFER_PIECES_MS);
  expect(rig.bench.frame().cue.phase).toBe('offer');
  page.covered = false;
  page.visible = false;
  await stands(2 * OFFER_PIECES_MS);
  expect(await accepted()).toBe(false);
  page.visible = true;
  await stands(OFFER_PIECES_MS - 300);
  expect(await accepted()).toBe(false);
  await stands(1_000);
  expect(await accepted()).toBe(true);
});

describe('what stood still before it counts no more', () => {
  type Poured = Awaited<ReturnType<typeof poured>>;
  it.each<[string, (at: Poured) => void, string]>([
    ['B10: a step of the clock: it has to settle anew', ({ rig }) => rig.stepWall(7_200_000), 'accepted'],
    ['B10: a suspend: a person says whether the weight is still the same', ({ rig }) => rig.suspend(3_600_000), 'blocked'],
    ['A6: another page that has taken the bench: it has to settle anew', ({ rig }) => rig.bench.takeLease(PHONE, 'phone'), 'accepted'],
  ])('%s', async (_what, happens, then) => {
    const at = await poured();
    // Most of the moment is over.
    await at.stands(OFFER_PIECES_MS - 500);
    expect(at.rig.bench.frame().cue.acceptsIn).not.toBeNull();
    happens(at);
    await at.stands(OFFER_PIECES_MS - 500);
    expect(await at.accepted()).toBe(false);
    await at.stands(10_000);
    expect((await at.accepted()) ? 'accepted' : at.rig.bench.frame().cue.phase).toBe(then);
  });
});
