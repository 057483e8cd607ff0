import { boilingAt, pressureAt } from '#lib/measure/probe/boiling';
import { celsiusOfNtc, celsiusOfNtcBeta, ntcLaw } from '#lib/measure/probe/ntc';
import { celsiusOfOneWire } from '#lib/measure/probe/one-wire';
import { celsiusOfPt100, ohmsOfPt100 } from '#lib/measure/probe/pt100';
import { celsiusOfTypeK, millivoltsOfTypeK } from '#lib/measure/probe/type-k';
import { checks, type Check } from './check';

const known = (value: number | null): number => value ?? Number.NaN;

const PT100: readonly (readonly [celsius: number, ohms: number])[] = [
  [-20, 92.16],
  [-10, 96.09],
  [0, 100],
  [10, 103.9],
  [50, 119.4],
  [60, 123.24],
  [80, 130.9],
  [90, 134.71],
  [100, 138.51],
  [110, 142.29],
];

const TYPE_K: readonly (readonly [celsius: number, millivolts: number])[] = [
  [-20, -0.778],
  [-10, -0.392],
  [0, 0],
  [25, 1],
  [50, 2.023],
  [100, 4.096],
];

const ONE_WIRE: readonly (readonly [word: number, celsius: number])[] = [
  [0x07d0, 125],
  [0x0191, 25.0625],
  [0x0190, 25],
  [0x00a2, 10.125],
  [0x0008, 0.5],
  [0x0000, 0],
  [0xfff8, -0.5],
  [0xff5e, -10.125],
  [0xfe6f, -25.0625],
  [0xfc90, -55],
];

/** IAPWS-IF97, table 36. */
const SATURATION: readonly (readonly [megapascals: number, kelvin: number])[] = [[0.1, 372.755919]];

/** International Standard Atmosphere, ISO 2533. */
const AIR: readonly (readonly [metres: number, pascals: number])[] = [
  [0, 101_325],
  [1_000, 89_874.6],
  [2_000, 79_495.2],
];

export const PROBE_CHECKS: readonly Check[] = [
  ...checks(PT100, ([celsius, ohms]) => ({
    subject: 'Pt100',
    quantity: `resistance at ${celsius} °C`,
    unit: 'Ω',
    source: 'IEC 60751, table',
    grade: 'B',
    published: ohms,
    ours: () => ohmsOfPt100(celsius),
    within: 0.005,
  })),
  ...checks(PT100, ([celsius, ohms]) => ({
    subject: 'Pt100',
    quantity: `temperature at ${ohms} Ω`,
    unit: '°C',
    source: 'IEC 60751, table',
    grade: 'B',
    published: celsius,
    ours: () => known(celsiusOfPt100(ohms)),
    within: 0.015,
    because: 'the last printed digit of the resistance, in degrees',
  })),
  ...checks(TYPE_K, ([celsius, millivolts]) => ({
    subject: 'thermocouple type K',
    quantity: `voltage at ${celsius} °C`,
    unit: 'mV',
    source: 'NIST ITS-90 thermocouple database (SRD 60), type K table',
    grade: 'memory',
    published: millivolts,
    ours: () => millivoltsOfTypeK(celsius),
    within: 0.0005,
  })),
  ...checks(TYPE_K, ([celsius, millivolts]) => ({
    subject: 'thermocouple type K',
    quantity: `temperature at ${millivolts} mV`,
    unit: '°C',
    source: 'NIST ITS-90 thermocouple database (SRD 60), type K table',
    grade: 'memory',
    published: celsius,
    ours: () => known(celsiusOfTypeK(millivolts, 0)),
    within: 0.015,
    because: 'the last printed digit of the voltage, in degrees',
  })),
  ...checks(ONE_WIRE, ([word, celsius]) => ({
    subject: 'one-wire digital thermometer',
    quantity: `word ${word.toString(16).padStart(4, '0')}`,
    unit: '°C',
    source: 'DS18B20 data sheet, temperature/data relationship',
    grade: 'B',
    published: celsius,
    ours: () => known(celsiusOfOneWire(word)),
    within: 0,
  })),
  {
    subject: 'thermistor',
    quantity: 'temperature at 3588 Ω, R25 10 kΩ, B 3950 K',
    unit: '°C',
    source: '1/T = 1/298.15 + ln(R/R25)/B',
    grade: 'computed',
    published: 50.001,
    ours: () => known(celsiusOfNtcBeta(3588, 10_000, 3950)),
    within: 0.001,
  },
  {
    subject: 'thermistor',
    quantity: 'temperature at 12262 Ω by the law through the ends and middle of its table',
    unit: '°C',
    source: 'laser-diode controller manual, table A.1',
    grade: 'B',
    published: 20,
    ours: () =>
      known(
        celsiusOfNtc(
          12_262,
          ntcLaw([
            [32_128, 0],
            [12_262, 20],
            [5_331, 40],
          ]),
        ),
      ),
    within: 0.01,
  },
  ...checks(SATURATION, ([megapascals, kelvin]) => ({
    subject: 'water',
    quantity: `boiling at ${megapascals} MPa`,
    unit: 'K',
    source: 'IAPWS-IF97, table 36',
    grade: 'memory',
    published: kelvin,
    ours: () => boilingAt(megapascals * 1e6) + 273.15,
    within: 1e-6,
  })),
  {
    subject: 'water',
    quantity: 'boiling at 101325 Pa',
    unit: '°C',
    source: 'IAPWS-95: 99.974 °C at one standard atmosphere',
    grade: 'memory',
    published: 99.974,
    ours: () => boilingAt(101_325),
    within: 0.001,
  },
  ...checks(AIR, ([metres, pascals]) => ({
    subject: 'air',
    quantity: `pressure at ${metres} m`,
    unit: 'Pa',
    source: 'ISO 2533 standard atmosphere',
    grade: 'memory',
    published: pascals,
    ours: () => pressureAt(metres),
    within: 1,
    because: 'the standard counts geopotential height, as we do; rounded exponent',
  })),
];
