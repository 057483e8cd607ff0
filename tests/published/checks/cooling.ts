import { fitLaws } from '#lib/soap/cooling/fit';
import { predictFrom } from '#lib/soap/cooling/mixture';
import { comesDownTo } from '#lib/soap/cooling/reach';
import type { Law } from '#lib/soap/cooling/types';
import { fatHeatCapacity } from '#lib/soap/heat/fat';
import { mixedCelsius } from '#lib/soap/heat/mix';
import type { Check } from './check';

const HOT_DRINK = 'calculus course problem, solved (mathhelpforum.com, integral word problem): T = 20 + 75 exp(−0.02 t)';
const CAKE = 'published worked solution: a cake of 300 °F, 200 °F after 10 min, room 60 °F';
const CAKE_207 = 'published worked solution: a cake of 207 °F, 138 °F after 20 min, room 69 °F';

const fahrenheit = (degrees: number): number => (degrees - 32) / 1.8;

/** Newton's k per minute that the fit finds on an exercise's own two points and what lies between them, °C. */
const fittedK = (from: number, to: number, minutes: number, room: number): number => {
  const blocks = Array.from({ length: 3 * minutes + 1 }, (_, i) => ({
    at: 20 * i,
    celsius: room + (from - room) * ((to - room) / (from - room)) ** (i / (3 * minutes)),
  }));
  const laws = fitLaws(blocks, { kind: 'said', celsius: room }, null)?.laws ?? [];
  return 60 * (laws.find((law) => law.power === 1 && law.room === room)?.k ?? Number.NaN);
};

const newton = (perMinute: number, room: number): readonly Law[] => [{ share: 1, power: 1, room, k: perMinute / 60, uK: 0 }];

/** Minutes until a vessel under Newton's law has come down to a temperature, °C. */
const minutesTo = (from: number, to: number, perMinute: number, room: number): number => {
  const ahead = Array.from({ length: 7200 }, (_, after) => {
    const { mean } = predictFrom(newton(perMinute, room), from, after);
    return { after, low: mean, middle: mean, high: mean };
  });
  return (comesDownTo(ahead, to).middle ?? Number.NaN) / 60;
};

const exercise = (
  subject: string,
  quantity: string,
  unit: string,
  published: number,
  ours: () => number,
  within: number,
  because?: string,
): Check => ({
  subject,
  quantity,
  unit,
  source: subject.startsWith('hot drink') ? HOT_DRINK : subject.includes('207') ? CAKE_207 : CAKE,
  grade: 'C',
  published,
  ours,
  within,
  ...(because === undefined ? {} : { because }),
});

export const COOLING_CHECKS: readonly Check[] = [
  exercise('hot drink, 95 to 61 °C in 30 min, room 20 °C', 'Newton’s k', '1/min', 0.02, () => fittedK(95, 61, 30, 20), 0.0005),
  {
    ...exercise('hot drink, 95 to 61 °C in 30 min, room 20 °C', 'Newton’s k', '1/min', 0.0201305, () => fittedK(95, 61, 30, 20), 5e-8),
    source: 'ln(75/41)/30, worked by hand',
    grade: 'computed',
  },
  exercise(
    'cake, 300 to 200 °F in 10 min',
    'Newton’s k',
    '1/min',
    0.0539,
    () => fittedK(fahrenheit(300), fahrenheit(200), 10, fahrenheit(60)),
    5e-5,
  ),
  exercise(
    'cake, 300 to 200 °F in 10 min',
    'minutes to 75 °F',
    'min',
    51.44,
    () => minutesTo(fahrenheit(300), fahrenheit(75), fittedK(fahrenheit(300), fahrenheit(200), 10, fahrenheit(60)), fahrenheit(60)),
    0.005,
  ),
  exercise(
    'cake, 207 to 138 °F in 20 min',
    'Newton’s k, ln 2/20',
    '1/min',
    0.03465,
    () => fittedK(fahrenheit(207), fahrenheit(138), 20, fahrenheit(69)),
    1e-5,
    'cut off in print, not rounded',
  ),
  exercise(
    'cake, 207 to 138 °F in 20 min',
    'temperature after 35 min',
    '°F',
    110.03,
    () => 32 + 1.8 * predictFrom(newton(0.03465, fahrenheit(69)), fahrenheit(207), 35 * 60).mean,
    0.05,
    'from the k of the print, which is cut off',
  ),
  {
    subject: 'olive oil, 20 °C',
    quantity: 'specific heat',
    unit: 'J/(g K)',
    source: 'Transport Processes and Separation Process Principles, 4th ed., App. A.4-1, as reproduced',
    grade: 'C',
    published: 2.01,
    ours: () => fatHeatCapacity(20).value,
    within: 0.005,
  },
  {
    subject: '413 g at 20 °C into 313 g at 45 °C, one fat',
    quantity: 'temperature of both together',
    unit: '°C',
    source: 'mixing by masses, worked by hand: (413 · 20 + 313 · 45)/726',
    grade: 'computed',
    published: 30.78,
    ours: () =>
      mixedCelsius([
        { capacity: 413, celsius: 20 },
        { capacity: 313, celsius: 45 },
      ]),
    within: 0.005,
  },
];
