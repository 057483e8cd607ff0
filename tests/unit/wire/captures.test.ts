import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Reading } from '#lib/measure/reading';
import type { Shape } from '#lib/measure/shape';
import { createIdentifier } from '#lib/measure/wire/index';
import { monotonic } from '#lib/units/time';
import { hear } from '#tests/support/listen';

/** What each sample stream says, in order, as `value` or its reason for none, and which faults it counts. */
const EXPECTED: Readonly<Record<string, { shape: Shape; says: (number | string | null)[]; faults: string[] }>> = {
  'header-comma.txt': {
    shape: 'header-comma',
    says: [0, -120, 61_400, 151_020, 183_690, 183_690, 402_870, 'over', 183_690],
    // A count of pieces, and one lonely frame in ounces; the frame cut off at the end of the file is never told.
    faults: ['first-partial', 'first-partial', 'unknown-unit', 'layout'],
  },
  'header-mode-comma.txt': {
    shape: 'header-mode-comma',
    says: [742_000, 1_250_000, 0, 310_000, -1_250_000, 'over'],
    faults: ['first-partial', 'first-partial', 'layout'],
  },
  'echo-marker.txt': {
    shape: 'echo-marker',
    says: [18_500_000, 18_500_000, -2_500_000, 'over', 'under'],
    faults: ['first-partial', 'first-partial', 'declined', 'declined', 'layout'],
  },
  'letter-reply.txt': {
    shape: 'letter-reply',
    says: [99_870, 100_000, -12_500, 'over', 'under'],
    faults: ['first-partial', 'first-partial', 'declined', 'layout'],
  },
  'right-query.txt': {
    shape: 'right-query',
    says: [10, 192_210, 192_210, -192_210],
    faults: ['first-partial', 'first-partial', 'layout'],
  },
  'stx-status-checked.bin': {
    shape: 'stx-status',
    says: [742_000, 1_250_000, -1_250_000, 'over', 'under'],
    faults: ['first-partial', 'first-partial', 'first-partial', 'first-partial', 'layout', 'layout'],
  },
  'stx-status-plain.bin': {
    shape: 'stx-status',
    says: [742_000, 1_250_000, -1_250_000, 'over', 'under'],
    faults: ['first-partial', 'first-partial', 'first-partial', 'layout', 'layout'],
  },
  'probe-line.txt': {
    shape: 'probe-line',
    says: [43_250, 41_875, 20_500, 'disconnected', -500, 'not-a-number'],
    faults: ['first-partial', 'other-channel', 'checksum'],
  },
};

const said = (reading: Reading): number | string | null =>
  reading.kind === 'mass' ? (reading.mass ?? reading.range) : (reading.value ?? reading.fault);

describe.each(Object.entries(EXPECTED))('%s', (file, { shape, says, faults }) => {
  const bytes = new Uint8Array(readFileSync(new URL(`../../../hardware/captures/${file}`, import.meta.url)));

  it('says what its provenance says it does', () => {
    const heard = hear(shape, bytes);
    expect(heard.readings.map(said)).toEqual(says);
    expect(heard.names()).toEqual(faults);
  });

  it('is recognised by its frames', () => {
    expect(createIdentifier().push(bytes, monotonic(0))).toBe(shape);
  });
});
