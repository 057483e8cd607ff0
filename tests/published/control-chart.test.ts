import { describe, expect, it } from 'vitest';
import { controlChart } from '#lib/work/history/chart';

describe('control charts of single values', () => {
  it('NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2: flow rate of ten batches', () => {
    const chart = controlChart([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]);
    expect(chart?.centre).toBeCloseTo(50.81, 10);
    expect(chart?.ranges.map((range) => Math.round(10 * range) / 10)).toEqual([2, 2.3, 1.4, 3.5, 3.4, 1.4, 0.2, 1.2, 1.5]);
    expect(chart?.rangeCentre).toBeCloseTo(1.8778, 4);
    expect(chart?.upper).toBeCloseTo(55.8041, 3);
    expect(chart?.lower).toBeCloseTo(45.8159, 3);
    // "The process is in control, since none of the plotted points fall outside either the UCL or LCL."
    expect(chart?.signals.filter(({ rule }) => rule === 'one-beyond-three')).toEqual([]);
  });

  it('Montgomery and Runger, Applied Statistics and Probability for Engineers, 3rd ed., table 16-3: twenty concentrations', () => {
    const chart = controlChart([
      102, 94.8, 98.3, 98.4, 102, 98.5, 99, 97.7, 100, 98.1, 101.3, 98.7, 101.1, 98.4, 97, 96.7, 100.3, 101.4, 97.2, 101,
    ]);
    expect(chart?.centre).toBeCloseTo(99.1, 1);
    expect(chart?.rangeCentre).toBeCloseTo(2.59, 2);
    expect(chart?.upper).toBeCloseTo(105.99, 1);
    expect(chart?.lower).toBeCloseTo(92.21, 1);
    expect(chart?.signals).toEqual([]);
  });

  it('the constants are those of a normal distribution: d₂ = 2/√π, D₄ = 1 + 3·√(2 − 4/π)/d₂', () => {
    // One unit of moving range tells them apart: values 0 and 1 in turn.
    const chart = controlChart([0, 1, 0, 1, 0]);
    const d2 = 2 / Math.sqrt(Math.PI);
    expect(1 / (chart?.sigma ?? 0)).toBeCloseTo(d2, 3);
    expect(chart?.rangeUpper).toBeCloseTo(1 + (3 * Math.sqrt(2 - 4 / Math.PI)) / d2, 2);
  });
});
