// @vitest-environment jsdom
import { cleanup, render } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import { Vernier } from '../../../app/_charts/vernier';
import { GLASS } from '../../../app/_charts/vernier-shape';

afterEach(cleanup);

/** The least that is readable at a bench in each frame, units of its drawing: 20 px of 1280 x 800, 15 px of the small ones. */
const LEAST = { wide: 20, small: 15, phone: 15 } as const;
/** How wide a digit of the figure face is set, ems. */
const DIGIT = 0.562;
const SLIGHT = 1e-6;
/** The gap between the columns of the bench, units: nothing stands in it. */
const FREE = { wide: 16, small: 12, phone: 12 } as const;

it.each(['wide', 'small', 'phone'] as const)('at %s no label is too small to be read, nor reaches into what stands beside', (frame) => {
  const { container } = render(
    <Vernier
      frame={frame}
      target={1_140_700}
      tolerance={5_000}
      total={0}
      overshoot={null}
      red={false}
      display={{ locale: 'en-GB', mass: 'g', temperature: 'C' }}
      words={{ whole: 'whole', last: (amount) => `last ${amount}`, easeOff: '', unsure: '' }}
    />,
  );
  const labels = [...container.querySelectorAll('text')].map((one) => ({
    text: one.textContent ?? '',
    size: Number(one.getAttribute('font-size')),
    x: Number(one.getAttribute('x')),
    from: one.getAttribute('text-anchor'),
  }));
  expect(labels.map(({ text }) => text)).toEqual(expect.arrayContaining(['1140.7', '1145.7', '1135.7']));
  expect(labels.filter(({ size }) => size < LEAST[frame])).toEqual([]);
  const over = labels.filter(({ text, size, x, from }) => {
    const width = DIGIT * size * text.length;
    if (from === 'middle') return false;
    return from === 'end' ? x - width < -FREE[frame] - SLIGHT : x + width > GLASS[frame].width + FREE[frame] + SLIGHT;
  });
  expect(over).toEqual([]);
});
