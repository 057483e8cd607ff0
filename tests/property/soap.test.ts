import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { ACID_IDS, acidPortion, acidTake, waterWithAcid } from '#lib/soap/acid';
import { alkaliSupply, waterWith } from '#lib/soap/alkali';
import { curve } from '#lib/soap/curve';
import { FATS, portionOf } from '#lib/soap/fats/index';
import { fatDemand, freeAcidOf } from '#lib/soap/fat-portion';
import { liquidFor, lyeConcentration, lyeOf } from '#lib/soap/lye/composition';
import { lyeDensity } from '#lib/soap/lye/density';
import { mixingPeak } from '#lib/soap/lye/mixing-peak';
import { react, type Batter } from '#lib/soap/reaction';
import { alkaliFor, naohShare, superfat } from '#lib/soap/superfat';
import { superfatInterval } from '#lib/soap/superfat-interval';
import { theoreticalSv } from '#lib/soap/theory';
import { batterVolume, fatDensity, lyeComponent, otherComponent } from '#lib/soap/volume';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const mass = number(0.5, 20_000);
const fats = fc.array(
  fc.tuple(fc.constantFrom(...FATS), mass).map(([fat, grams]) => portionOf(fat, grams)),
  { minLength: 1, maxLength: 8 },
);
const acids = fc.array(
  fc.tuple(fc.constantFrom(...ACID_IDS), number(0, 30), number(0.05, 1)).map(([id, grams, strength]) => acidPortion(id, grams, strength)),
  { maxLength: 3 },
);
const split = fc.record({
  naohShare: fc.oneof(fc.constant(0), fc.constant(1), number(0.01, 0.99)),
  naohPurity: number(0.5, 1),
  kohPurity: number(0.5, 1),
});
const wished = number(-0.1, 0.5);
const formula = fc.record({ fats, acids, split, wished, water: number(0, 5000), inert: number(0, 500) });

const batterOf = ({ fats, acids, split, wished, water, inert }: typeof formula extends fc.Arbitrary<infer T> ? T : never): Batter => ({
  fats,
  acids,
  alkalis: alkaliFor(wished, fats, acids, split),
  water,
  inert,
});

const total = (masses: readonly { readonly mass: number }[]): number => masses.reduce((sum, m) => sum + m.mass, 0);
const close = (a: number, b: number, relative: number): void =>
  expect(Math.abs(a - b)).toBeLessThanOrEqual(relative * Math.max(1, Math.abs(a), Math.abs(b)));

describe('any formula', () => {
  it('gives back the superfat it was worked out for, to 1e-9', () => {
    fc.assert(
      fc.property(formula, (f) => {
        const { alkalis } = batterOf(f);
        expect(Math.abs(superfat({ fats: f.fats, alkalis, acids: f.acids }) - f.wished)).toBeLessThan(1e-9);
        close(naohShare(alkalis), f.split.naohShare, 1e-12);
      }),
      { numRuns: 10_000 },
    );
  });

  it('loses and gains no mass', () => {
    fc.assert(
      fc.property(formula, (f) => {
        const batter = batterOf(f);
        const before = total(batter.fats) + total(batter.alkalis) + total(batter.acids) + batter.water + batter.inert;
        const after = react(batter);
        close(after.total, before, 1e-11);
        for (const part of Object.values(after)) expect(part).toBeGreaterThan(-1e-9 * before);
      }),
    );
  });

  it('balances alkali in moles: what acids, free acids and ester bonds took, and what is left', () => {
    fc.assert(
      fc.property(formula, (f) => {
        const batter = batterOf(f);
        const after = react(batter);
        const supply = alkaliSupply(batter.alkalis);
        const demand = fatDemand(batter.fats);
        const left = supply === 0 ? 0 : (after.freeAlkali / batter.alkalis.reduce((sum, a) => sum + a.mass * a.purity, 0)) * supply;
        const used = supply - left;
        const brought =
          batter.water + batter.alkalis.reduce((s, a) => s + waterWith(a), 0) + batter.acids.reduce((s, a) => s + waterWithAcid(a), 0);
        const neutralised = (after.water - brought) / 18.015;
        const byAcid = acidTake(batter.acids) + batter.fats.reduce((s, fat) => s + freeAcidOf(fat), 0);
        if (f.wished <= 0) close(used, demand + acidTake(batter.acids), 1e-9);
        else close(used, demand * (1 - f.wished) + acidTake(batter.acids), 1e-9);
        expect(neutralised).toBeLessThanOrEqual(byAcid * (1 + 1e-9) + 1e-9);
        expect(neutralised).toBeLessThanOrEqual(used * (1 + 1e-9) + 1e-9);
      }),
    );
  });

  it('scales: k times of everything gives k times of everything, and the same superfat', () => {
    fc.assert(
      fc.property(formula, number(0.01, 100), (f, k) => {
        const times = <T extends { readonly mass: number }>(all: readonly T[]): T[] => all.map((one) => ({ ...one, mass: k * one.mass }));
        const one = batterOf(f);
        const alkalis = alkaliFor(f.wished, times(f.fats), times(f.acids), f.split);
        close(total(alkalis), k * total(one.alkalis), 1e-11);
        const many = react({ fats: times(f.fats), alkalis, acids: times(f.acids), water: k * f.water, inert: k * f.inert });
        const few = react(one);
        for (const key of ['soap', 'glycerol', 'freeFat', 'water', 'salts'] as const) close(many[key], k * few[key], 1e-8);
      }),
    );
  });

  it('more alkali never leaves more superfat, more fat or acid never less', () => {
    fc.assert(
      fc.property(formula, number(0.1, 100), fc.nat(), (f, more, pick) => {
        const { alkalis } = batterOf(f);
        const charge = { fats: f.fats, alkalis, acids: f.acids };
        const before = superfat(charge);
        const bump = <T extends { readonly mass: number }>(all: readonly T[]): T[] =>
          all.map((one, i) => (i === pick % all.length ? { ...one, mass: one.mass + more } : one));
        expect(superfat({ ...charge, alkalis: bump(alkalis) })).toBeLessThan(before);
        expect(superfat({ ...charge, fats: bump(f.fats) })).toBeGreaterThan(before);
        expect(superfat({ ...charge, acids: bump(f.acids) })).toBeGreaterThanOrEqual(before);
      }),
    );
  });

  it('has an interval that holds its own expectation, lies in the worst case when ranges are all, and orders the chance', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.constantFrom(...FATS), mass), { minLength: 1, maxLength: 6 }), number(-0.02, 0.15), (chosen, s) => {
        const uncertain = chosen.map(([fat, grams]) => ({
          ...portionOf(fat, grams),
          belief: { kind: 'range' as const, low: fat.sv.low, high: fat.sv.high },
        }));
        const at = (superfatWished: number) =>
          superfatInterval({
            fats: uncertain,
            alkalis: alkaliFor(superfatWished, uncertain, [], { naohShare: 1, naohPurity: 1, kohPurity: 1 }).map((a) => ({
              ...a,
              uPurity: 0,
            })),
            acids: [],
          });
        const answer = at(s);
        expect(answer.worst.low).toBeLessThanOrEqual(answer.working + 1e-12);
        expect(answer.worst.high).toBeGreaterThanOrEqual(answer.working - 1e-12);
        expect(answer.expected).toBeGreaterThan(answer.worst.low);
        expect(answer.expected).toBeLessThan(answer.worst.high);
        // As exact as a chance is said to be (`chanceBelowZero`).
        expect(answer.lyeHeavy).toBeGreaterThanOrEqual(at(s + 0.01).lyeHeavy - 1e-6);
      }),
    );
  });
});

describe('any lye', () => {
  const alkalis = fc.tuple(number(1, 500), number(0, 500), number(0.85, 1)).map(([naoh, koh, p]) => [
    { kind: 'NaOH' as const, mass: naoh, purity: p },
    { kind: 'KOH' as const, mass: koh, purity: p },
  ]);

  it('has the concentration its liquid was worked out for', () => {
    fc.assert(
      fc.property(alkalis, number(0.1, 0.6), number(0, 0.3), (portions, concentration, fat) => {
        const fractions = { water: 0.7, fat, sugar: 0, acid: 0 };
        const liquid = liquidFor(concentration, portions, fractions);
        const lye = lyeOf({ alkalis: portions, liquids: [{ mass: liquid, fractions, acid: 'lactic', fatSv: 220 }] });
        close(lyeConcentration(lye), concentration, 1e-12);
        close(lye.naoh + lye.koh + lye.water + lye.other, lye.solution, 1e-12);
      }),
    );
  });

  it('grows denser with strength, and lighter with warmth', () => {
    const kinds = fc.constantFrom(
      (w: number) => ({ naoh: w, koh: 0 }),
      (w: number) => ({ naoh: 0, koh: w }),
    );
    fc.assert(
      fc.property(kinds, number(0, 0.49), number(10, 84), (of, w, t) => {
        const here = lyeDensity(of(w), t).value;
        expect(lyeDensity(of(w + 0.01), t).value).toBeGreaterThan(here);
        expect(lyeDensity(of(w), t + 1).value).toBeLessThan(here);
      }),
    );
  });

  it('peaks the higher the warmer it starts', () => {
    fc.assert(
      fc.property(number(50, 400), number(5, 40), (naoh, start) => {
        const lye = { naoh, koh: 0, water: 1000 - naoh };
        expect(mixingPeak(lye, start + 1).value).toBeGreaterThan(mixingPeak(lye, start).value);
      }),
    );
  });
});

describe('any batter volume', () => {
  it('is the sum of its parts, however they are grouped', () => {
    const part = fc.oneof(
      fc.tuple(fc.constantFrom(...FATS), mass).map(([fat, grams]) => ({ mass: grams, density: fatDensity(fat.density, 40) })),
      fc.tuple(mass, number(0, 0.5)).map(([grams, w]) => lyeComponent(grams, { naoh: w, koh: 0 }, 40)),
      mass.map((grams) => otherComponent(grams, 'clay')),
    );
    fc.assert(
      fc.property(fc.array(part, { maxLength: 6 }), fc.array(part, { maxLength: 6 }), (a, b) => {
        close(batterVolume([...a, ...b]).value, batterVolume(a).value + batterVolume(b).value, 1e-12);
      }),
    );
  });
});

describe('any profile, any table', () => {
  it('comes to a saponification value between those of its lightest and heaviest acid', () => {
    const chains = ['8:0', '12:0', '16:0', '18:1', '22:0'] as const;
    fc.assert(
      fc.property(fc.array(number(0.01, 100), { minLength: 5, maxLength: 5 }), number(0.1, 10), (shares, k) => {
        const profile = Object.fromEntries(chains.map((c, i) => [c, shares[i]]));
        const sv = theoreticalSv(profile);
        expect(sv).toBeLessThan(theoreticalSv({ '8:0': 1 }));
        expect(sv).toBeGreaterThan(theoreticalSv({ '22:0': 1 }));
        close(theoreticalSv(Object.fromEntries(chains.map((c, i) => [c, k * (shares[i] ?? 0)]))), sv, 1e-12);
      }),
    );
  });

  it('a curve that turns right after its first stretch does not shoot over it', () => {
    const steep = curve([
      [0, 0],
      [1, 1],
      [1.1, -50],
    ]);
    for (let x = 0; x <= 1; x += 0.05) expect(steep(x)).toBeLessThanOrEqual(1);
  });

  it('a curve goes through its points and never past their neighbours', () => {
    const points = fc
      .uniqueArray(fc.integer({ min: -1000, max: 1000 }), { minLength: 3, maxLength: 12 })
      .map((xs) => xs.toSorted((a, b) => a - b))
      .chain((xs) => fc.tuple(fc.constant(xs), fc.array(number(-100, 100), { minLength: xs.length, maxLength: xs.length })))
      .map(([xs, ys]) => xs.map((x, i) => [x, ys[i] ?? 0] as const));
    fc.assert(
      fc.property(points, number(0, 1), (table, where) => {
        const through = curve(table);
        for (const [x, y] of table) close(through(x), y, 1e-9);
        for (let i = 1; i < table.length; i += 1) {
          const [x0, y0] = table[i - 1] ?? [0, 0];
          const [x1, y1] = table[i] ?? [0, 0];
          const y = through(x0 + where * (x1 - x0));
          expect(y).toBeGreaterThanOrEqual(Math.min(y0, y1) - 1e-9);
          expect(y).toBeLessThanOrEqual(Math.max(y0, y1) + 1e-9);
        }
      }),
    );
  });
});
