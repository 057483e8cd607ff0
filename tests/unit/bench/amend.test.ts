import { describe, expect, it } from 'vitest';
import type { InstrumentConfig } from '#lib/measure/instrument';
import { as } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import type { Plan } from '#lib/work/batch/index';
import { benchRig, SCALE } from '#tests/support/bench-rig';
import type { BenchRig } from '#tests/support/bench-rig';
import { formula } from '#tests/support/formula';
import { computed } from '#tests/support/remedy-rig';

const scale = (id: string, role: 'main' | 'fine', division: number): InstrumentConfig => ({
  kind: 'scale',
  id: as(id),
  role,
  name: `${role} scale`,
  path: '/dev/none',
  shape: 'header-comma',
  serial: { baudRate: 9600, frame: '8N1' },
  capacity: grams(5000),
  division: mg(division),
});
const BOTH = [scale(SCALE, 'main', 1000), scale('scale-fine', 'fine', 10)];

const begun = async (plan: (lots: Readonly<Record<string, { readonly id: string }>>) => Plan | 'unsound' | null): Promise<BenchRig> => {
  const rig = benchRig({ parts: { configs: BOTH, plan: (_id, lots) => plan(lots) } });
  await rig.start();
  return rig;
};
const planOf = (rig: BenchRig, line: string) => rig.bench.batch()?.lines[line as never]?.plan;

describe('a line moved to the other scale by hand', () => {
  const plan = computed(formula());
  const fine: Plan = {
    ...plan,
    lines: plan.lines.map((line) => (line.id === 'olive' ? { ...line, scale: 'fine', tolerance: mg(50) } : line)),
  };

  it('has a tolerance that scale can show, says where it was meant to be, and is refused without a hold', async () => {
    const rig = await begun(() => fine);
    const change = { kind: 'change-scale', line: 'olive', scale: 'main' } as const;
    expect(await rig.intent({ ...change, held: false })).toMatchObject({ ok: false, refusal: { code: 'needs-hold' } });
    expect(await rig.intent({ ...change, held: true })).toMatchObject({ ok: true });
    expect(planOf(rig, 'olive')).toMatchObject({ scale: 'main', meant: 'fine' });
    expect(planOf(rig, 'olive')?.tolerance).toBeGreaterThanOrEqual(1000);
  });

  it('is of a line that there is: a name every object has is none', async () => {
    const rig = await begun(() => fine);
    for (const line of ['__proto__', 'constructor', 'none'])
      expect(await rig.intent({ kind: 'change-scale', line, scale: 'main', held: true })).toMatchObject({ refusal: { code: 'no-such' } });
  });

  it('goes back to where it was meant to be', async () => {
    const rig = await begun(() => plan);
    await rig.intent({ kind: 'change-scale', line: 'olive', scale: 'fine', held: true });
    expect(planOf(rig, 'olive')).toMatchObject({ scale: 'fine', meant: 'main' });
    await rig.intent({ kind: 'change-scale', line: 'olive', scale: 'main', held: true });
    expect(planOf(rig, 'olive')?.scale).toBe('main');
    expect(planOf(rig, 'olive')?.meant).toBeUndefined();
    expect(await rig.intent({ kind: 'change-scale', line: 'olive', scale: 'main', held: true })).toMatchObject({ ok: false });
  });
});

describe('another lot than the record says', () => {
  const LOT = { id: 'olive-2', mark: 'OL 2' };
  const said = { kind: 'state-wrong', what: 'lot', line: 'olive', vessel: null, mass: null, lot: LOT, held: true } as const;
  const plan = computed(formula());
  const basis = plan.basis?.poured;
  const other = (lots: Readonly<Record<string, { readonly id: string }>>): Plan => {
    if (lots['olive']?.id !== LOT.id || plan.basis === undefined || basis === undefined) return plan;
    return { ...plan, basis: { ...plan.basis, poured: { ...basis, beliefs: basis.beliefs.map((one) => ({ ...one, lot: LOT.id })) } } };
  };

  it('is worked out from the server’s own stores', async () => {
    const rig = await begun(other);
    expect(await rig.intent(said)).toMatchObject({ ok: true });
    expect(rig.bench.batch()?.plan.basis?.poured?.beliefs.every(({ lot }) => lot === LOT.id)).toBe(true);
    expect(rig.bench.batch()?.wrong).toMatchObject({ what: 'lot', line: 'olive' });
  });

  it('is refused, and nothing changes, where the stores lack it or the formula has gone on', async () => {
    let later: ReturnType<typeof other> | null = plan;
    const rig = await begun(() => later);
    const version = rig.bench.batch()?.version;
    later = null;
    expect(await rig.intent(said)).toMatchObject({ ok: false, refusal: { code: 'no-such' } });
    later = { ...plan, formula: { ...plan.formula, version: plan.formula.version + 1 } };
    expect(await rig.intent(said)).toMatchObject({ ok: false, refusal: { code: 'plan-unsound' } });
    expect(rig.bench.batch()?.version).toBe(version);
  });
});
