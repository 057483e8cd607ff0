// @vitest-environment jsdom
import { act, cleanup, render, waitFor } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { BatchListRow, PlanList } from '#lib/protocol/http';
import { planOnBench } from '#lib/work/formula/index';
import { SAMPLE_PLANS } from '#lib/work/formula/sample';
import { started } from '#tests/support/batch';
import { liveStore } from '../../../app/_live/start';
import { act as press, controls } from '../../../app/bench/_parts/controls';
import { Start } from '../../../app/bench/_parts/start';

const went: string[] = [];
vi.mock('next/navigation', () => ({ useRouter: () => ({ push: (to: string) => void went.push(to) }) }));

const serve = (plans: PlanList['plans']): void => {
  vi.stubGlobal('fetch', async (path: string) => Response.json(path.includes('/plans') ? { plans } : { batches: [], next: null }));
};
const cards = async (): Promise<readonly Element[]> => {
  render(<Start />);
  await waitFor(() => expect(document.querySelector('[data-card]')).not.toBeNull());
  // What the pedal does with them is said in an effect, after they are drawn.
  await act(async () => {});
  return [...document.querySelectorAll('[data-card]')];
};

/** By the pedal: a card chosen, and held. */
const take = (selected: number): void =>
  act(() => {
    controls.setState({ selected });
    press('go-on', true);
  });

const LEADS = { holder: 'me', mine: true, label: 'screen 10:42', lostForMs: null };
beforeEach(() => {
  went.splice(0);
  liveStore.setState({ lease: LEADS });
});
afterEach(() => {
  cleanup();
  liveStore.setState(liveStore.getInitialState(), true);
  vi.unstubAllGlobals();
});

const names = (): readonly (string | null)[] => [...document.querySelectorAll('[data-card]')].map((card) => card.getAttribute('data-card'));

describe('the empty bench', () => {
  it('without a plan says where one is made, and goes there by the pedal', async () => {
    serve([]);
    const all = await cards();
    expect(all.map(({ textContent }) => textContent)).toEqual([expect.stringContaining('under Formulas')]);
    take(0);
    expect(went).toEqual(['/formulas']);
  });

  it('begins nothing on a screen that only watches, by finger or by pedal', async () => {
    serve(SAMPLE_PLANS);
    liveStore.setState({ lease: { ...LEADS, holder: 'other', mine: false } });
    const all = await cards();
    expect(all.length).toBeGreaterThan(1);
    expect(all.map((card) => card.getAttribute('aria-disabled'))).toEqual(all.map(() => 'true'));
    take(0);
    expect(controls.getState().asking).toBeNull();
    expect(names()).toEqual(all.map((card) => card.getAttribute('data-card')));
  });

  it('reaches every parked batch by the pedal, behind one card and over as many pages of the list as there are', async () => {
    const rows = Array.from({ length: 13 }, (_, at) => ({ id: `b${at}`, mark: `26-${at}`, name: 'Hearth bar' }) as BatchListRow);
    const asked: string[] = [];
    vi.stubGlobal('fetch', async (path: string) => {
      if (path.includes('/plans')) return Response.json({ plans: SAMPLE_PLANS });
      asked.push(path);
      return Response.json(
        path.includes('before=') ? { batches: rows.slice(7), next: null } : { batches: rows.slice(0, 7), next: rows[6]?.id },
      );
    });
    expect((await cards())[0]?.textContent).toContain('13 are parked');
    expect(asked.every((path) => path.includes('status=parked'))).toBe(true);
    const seen = new Set<string | null>();
    take(0);
    for (let page = 0; page < 3; page += 1) {
      const shown = [...document.querySelectorAll('[data-card]')].map((card) => card.getAttribute('data-card'));
      shown.forEach((card) => seen.add(card));
      take(shown.length - 1);
    }
    for (const { id } of rows) expect(seen).toContain(`parked ${id}`);
    act(() => press('back', false));
    expect(document.querySelector('[data-card^="plan"]')).not.toBeNull();
  });

  it.each([
    ['while nothing is fetched yet', () => new Promise<never>(() => {}), ['review']],
    ['when nothing can be fetched', () => Promise.reject(new Error('gone')), ['review', 'again']],
  ])('shows the way to the batch that has just ended %s', async (_name, fetching, expected) => {
    vi.stubGlobal('fetch', fetching);
    const ended = { ...started().now, status: 'closed' as const };
    act(() => liveStore.setState({ batch: ended }));
    render(<Start />);
    await waitFor(() => expect(names()).toEqual(expected));
    take(0);
    expect(went).toEqual([`/batches/review?id=${encodeURIComponent(ended.id)}`]);
  });

  it('says what begins before it does, and which lines have no lot', async () => {
    serve(SAMPLE_PLANS.slice(0, 1));
    const [sample] = SAMPLE_PLANS;
    await cards();
    take(0);
    // The last card of each line is "no lot stated"; then what is clean, and the start.
    for (const _line of sample?.plan.lines ?? []) take(document.querySelectorAll('[data-card]').length - 1);
    take(0);
    expect(names()).toEqual(['start']);
    expect(controls.getState().asking?.what).toBe(`Start ${sample?.plan.formula.name}?`);
    expect(document.querySelector('[data-card]')?.textContent).toContain(`${sample?.plan.lines.length} lines have no lot`);
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
