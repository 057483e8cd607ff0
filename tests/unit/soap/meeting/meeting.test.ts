import { describe, expect, it } from 'vitest';
import { follow } from '#lib/soap/cooling/follow';
import { newVessel } from '#lib/soap/cooling/memory';
import { outlook } from '#lib/soap/cooling/outlook';
import type { Outlook } from '#lib/soap/cooling/types';
import { meetingOf } from '#lib/soap/meeting/meeting';
import type { Act, Meeting, Terms, When } from '#lib/soap/meeting/types';
import { cooling, LYE, noisy, OILS, ROOM, watched, type Curve } from '#tests/support/cooling';

const TERMS: Terms = { low: 30, high: 50, setsAt: 31, settingMargin: 2, apart: 6, apartLevel: 'hold', milkLimit: null };
const NOW = 900;

const lyeOn = (curve: Curve, now = NOW): Outlook => outlook(watched(noisy(curve, 0.02), { until: now, contents: LYE }), ROOM, now);
const oilsOn = (curve: Curve, now = NOW): Outlook =>
  outlook(watched(noisy(curve, 0.02), { until: now, contents: { ...OILS, setsBelow: 36 } }), ROOM, now);
const meet = (lye: Curve, oils: Curve, terms: Partial<Terms> = {}): Meeting & { readonly kind: 'meeting' } => {
  const found = meetingOf(lyeOn(lye), oilsOn(oils), { ...TERMS, ...terms }, null);
  if (found.kind === 'none') throw new Error('no meeting was worked out');
  return found;
};

/** When two curves truly meet, s from now. */
const truly = (lye: Curve, oils: Curve, terms: Terms = TERMS): number => {
  for (let t = 0; t <= 10_800; t += 1) {
    const [l, o] = [lye(NOW + t), oils(NOW + t)];
    if (l >= terms.low && l <= terms.high && o >= 33 && o <= terms.high && Math.abs(l - o) <= terms.apart) return t;
  }
  return Number.POSITIVE_INFINITY;
};
const within = (when: When, truth: number): void => {
  if (when.kind !== 'in') throw new Error(`told as ${when.kind}`);
  expect(truth).toBeGreaterThanOrEqual(when.low);
  expect(truth).toBeLessThanOrEqual(when.high);
};

const soonest = (when: When): number =>
  when.kind === 'in' ? when.low : when.kind === 'not-before' ? when.after : Number.POSITIVE_INFINITY;

const quickLye = cooling(1.25, 82, 52, 1500);
const slowOils = cooling(1.25, 55, 47, 1500);

describe('the meeting', () => {
  it('is a span that holds the moment they truly meet', () => {
    const { when } = meet(quickLye, slowOils);
    within(when, truly(quickLye, slowOils));
    if (when.kind === 'in') expect(when.high - when.low).toBeLessThan(600);
  });

  it('waits for two that are inside and still too far apart', () => {
    const [lye, oils] = [cooling(1.25, 56, 46, 900), cooling(1.25, 39.5, 38, 900)];
    const truth = truly(lye, oils);
    expect(truth).toBeGreaterThan(60);
    within(meet(lye, oils).when, truth);
  });

  it('is now, when both are inside and close', () => {
    const { when, acts, setting } = meet(cooling(1.25, 46, 42, 1500), cooling(1.25, 44, 41, 1500));
    expect(when).toEqual({ kind: 'met' });
    expect(acts).toEqual([]);
    expect(setting).toBeNull();
  });

  it('says what stands against it now, and holds or advises as the formula says', () => {
    const [lye, oils] = [cooling(1.25, 52, 47, 1500), cooling(1.25, 42, 39, 1500)];
    const [hold, advise] = [meet(lye, oils), meet(lye, oils, { apartLevel: 'advise' })];
    expect(hold.against).toEqual([{ reason: 'apart', level: 'hold' }]);
    expect(hold.joinable).toEqual(hold.when);
    expect(advise.against).toEqual([{ reason: 'apart', level: 'advise' }]);
    expect(advise.joinable).toEqual({ kind: 'met' });
    expect(advise.when).toEqual(hold.when);
    const hot = meet(quickLye, slowOils, { apartLevel: 'advise', milkLimit: 40 });
    expect(hot.against.map(({ reason }) => reason)).toEqual(['lye-too-hot', 'milk-too-hot', 'apart']);
    expect(hot.joinable.kind).not.toBe('met');
    const milk = meet(cooling(1.25, 50, 46, 1500), cooling(1.25, 46, 44, 1500), { milkLimit: 40 });
    expect(milk.against).toEqual([{ reason: 'milk-too-hot', level: 'hold' }]);
    expect(meet(lye, cooling(1.25, 36, 32.5, 900)).against.map(({ reason }) => reason)).toContain('oils-near-setting');
  });

  it('is not known while one of them is not, and says which and why', () => {
    const nothing = outlook(newVessel(OILS), ROOM, NOW);
    expect(meetingOf(lyeOn(quickLye), nothing, TERMS, null)).toEqual({ kind: 'none', lye: null, oils: 'nothing-heard' });
    const one = outlook(follow(newVessel(LYE), { at: NOW, celsius: 80 }, ROOM), ROOM, NOW);
    expect(meetingOf(one, oilsOn(slowOils), TERMS, null)).toEqual({ kind: 'none', lye: 'not-yet', oils: null });
  });

  it('with a milk in the lye is not before the milk bears it', () => {
    const [plain, milk] = [meet(quickLye, slowOils).when, meet(quickLye, slowOils, { milkLimit: 40 }).when];
    expect(soonest(milk)).toBeGreaterThan(soonest(plain) + 300);
  });
});

describe('never unless something is done', () => {
  // A large pot of hot lye and a small pot of oils: the oils set long before.
  const heavyLye = cooling(1.25, 90, 86, 900);
  const lightOils = cooling(1.25, 50, 42, 900);

  it('cools the lye now, to what the oils are, and says when they would meet then', () => {
    const { when, acts } = meet(heavyLye, lightOils);
    expect(when).toEqual({ kind: 'never' });
    const [act] = acts;
    expect(act).toMatchObject({ vessel: 'lye', kind: 'cool', start: 0 });
    expect(act?.to).toBeLessThan(50);
    expect(act?.to).toBeGreaterThan(42);
    expect(act?.meets.kind).toBe('in');
  });

  it('cools the lye later, when the oils are still too hot for the window', () => {
    const hotOils = cooling(1.25, 75, 66, 900);
    const { acts } = meet(heavyLye, hotOils);
    const cool = acts.find(({ kind }) => kind === 'cool');
    const reached = Array.from({ length: 10_800 }, (_, t) => t).find((t) => hotOils(NOW + t) <= 50) ?? Number.NaN;
    expect(Math.abs((cool?.start ?? 0) - reached)).toBeLessThan(0.2 * reached);
  });

  it('where the maker has not said, a melting range tells when a fat may begin to set, and holds nothing', () => {
    const [lye, oils] = [cooling(1.25, 90, 85, 900), cooling(1.25, 50, 46, 900)];
    const unsaid = meet(lye, oils, { setsAt: null });
    expect(unsaid.setting).toBeNull();
    const told = meet(lye, oils, { setsAt: null, maySetBelow: 42 });
    expect(told.setting).toMatchObject({ by: 'melting' });
    expect([told.when, told.joinable, told.against]).toEqual([unsaid.when, unsaid.joinable, unsaid.against]);
    expect(told.setting?.warmTo ?? 50).toBeGreaterThan(42);
    // Set lower already, or melted through only above the window: nobody knows by how much.
    expect(meet(lye, oils, { setsAt: null, maySetBelow: 48 }).setting).toBeNull();
    expect(meet(lye, oils, { setsAt: null, maySetBelow: 60 }).setting).toBeNull();
    expect(meet(lye, oils, { setsAt: 36, maySetBelow: 42 }).setting?.by ?? 'maker').toBe('maker');
  });

  it('warms oils that are setting already, inside the window', () => {
    const { when, acts } = meet(cooling(1.25, 46, 43, 900), cooling(1.25, 35, 32, 900), { apart: 3 });
    expect(when.kind).toBe('never');
    const warm = acts.find((act): act is Act & { readonly vessel: 'oils' } => act.vessel === 'oils');
    expect(warm?.kind).toBe('warm');
    expect(warm?.start).toBe(0);
    expect(warm?.to).toBeGreaterThanOrEqual(34);
    expect(warm?.to).toBeLessThanOrEqual(50);
  });

  it('warms lye that has grown cold, and not past what a milk in it bears', () => {
    const [cold, oils] = [cooling(1.25, 27, 25, 900), cooling(1.25, 60, 47, 900)];
    const warm = meet(cold, oils).acts.find(({ vessel, kind }) => vessel === 'lye' && kind === 'warm');
    expect(warm?.to).toBeGreaterThan(40);
    const milk = meet(cold, oils, { milkLimit: 40 }).acts.find(({ vessel, kind }) => vessel === 'lye' && kind === 'warm');
    expect(milk?.to ?? 0).toBeLessThan(40);
  });
});

describe('what is still to be poured in', () => {
  it('cools the pot: 413 g at 20 °C into 313 g at 45 °C come to about 31 °C', () => {
    // In the window by itself and out of it with what is to come.
    const warm = cooling(1.25, 47, 45, 900);
    const lye = cooling(1.25, 46, 42, 900);
    const toCome = { share: 413 / (413 + 313), celsius: 20 };
    const terms = { ...TERMS, setsAt: null };
    expect(meetingOf(lyeOn(lye), oilsOn(warm), terms, null)).toMatchObject({ when: { kind: 'met' } });
    const poured = meetingOf(lyeOn(lye), oilsOn(warm), { ...terms, low: 32 }, toCome);
    expect(poured).toMatchObject({ kind: 'meeting' });
    if (poured.kind === 'meeting') expect(poured.when.kind).not.toBe('met');
  });

  it('is counted in what the pot is to be warmed to', () => {
    const toCome = { share: 0.3, celsius: 20 };
    const found = meetingOf(lyeOn(cooling(1.25, 48, 44, 900)), oilsOn(cooling(1.25, 38, 35, 900)), TERMS, toCome);
    if (found.kind === 'none') throw new Error('no meeting');
    const warm = found.acts.find(({ vessel }) => vessel === 'oils');
    expect(0.7 * (warm?.to ?? 0) + 0.3 * 20).toBeGreaterThan(33);
    expect(0.7 * (warm?.to ?? 0) + 0.3 * 20).toBeLessThan(50.5);
  });
});

describe('oils that begin to set before the lye is there', () => {
  it('are told in minutes, with what the pot is to be warmed to', () => {
    const oils = cooling(1.25, 45, 38, 900);
    const { setting } = meet(cooling(1.25, 85, 74, 900), oils);
    const truth = Array.from({ length: 10_800 }, (_, t) => t).find((t) => oils(NOW + t) <= 31) ?? Number.NaN;
    expect(setting?.in.low).toBeLessThan(truth);
    expect(setting?.in.high ?? Number.POSITIVE_INFINITY).toBeGreaterThan(truth);
    expect(setting?.warmTo).toBeGreaterThan(38);
    expect(setting?.warmTo).toBeLessThanOrEqual(50);
  });

  it('say nothing where no fat sets', () => {
    expect(meet(cooling(1.25, 85, 74, 900), cooling(1.25, 45, 38, 900), { setsAt: null }).setting).toBeNull();
  });
});
