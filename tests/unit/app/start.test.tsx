// @vitest-environment jsdom
import { act, cleanup, render, waitFor } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { PlanList } from '#lib/protocol/http';
import { planOnBench } from '#lib/work/formula/index';
import { SAMPLE_PLANS } from '#lib/work/formula/sample';
import { act as press, controls } from '../../../app/bench/_parts/controls';
import { Start } from '../../../app/bench/_parts/start';

const went: string[] = [];
vi.mock('next/navigation', () => ({ useRouter: () => ({ push: (to: string) => void went.push(to) }) }));

const serve = (plans: PlanList['plans']): void => {
  vi.stubGlobal('fetch', async (path: string) => Response.json(path.includes('/plans') ? { plans } : { batches: [], next: null }));
};
const cards = async (): Promise<readonly Element[]> => {
  render(<Start />);
  return waitFor(() => {
    const all = [...document.querySelectorAll('[data-card]')];
    expect(all.length).toBeGreaterThan(0);
    return all;
  });
};

beforeEach(() => void went.splice(0));
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

describe('the empty bench', () => {
  it('without a plan says where one is made, and goes there by the pedal', async () => {
    serve([]);
    const all = await cards();
    expect(all.map(({ textContent }) => textContent)).toEqual([expect.stringContaining('under Formulas')]);
    act(() => {
      controls.setState({ selected: 0 });
      press('go-on', true);
    });
    expect(went).toEqual(['/formulas']);
  });

  it('says before a plan begins what it lacks a scale for', async () => {
    const [sample] = SAMPLE_PLANS;
    if (sample === undefined) throw new Error('no sample');
    const main = { id: 'main', role: 'main', name: 'big scale', capacity: null, division: null, repeatability: null } as const;
    serve([sample, ...[[main], []].map((scales, at) => ({ ...sample, id: `less ${at}`, plan: planOnBench(sample.plan, scales) }))]);
    const [whole, one, none, ...more] = (await cards()).map(({ textContent }) => textContent);
    expect(more).toEqual([]);
    expect(whole).not.toContain('no ');
    expect(one).toContain('all on one scale');
    expect(none).toContain('typed by hand');
  });
});
