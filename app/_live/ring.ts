/** Temperatures of the last two hours, one sample a second, in arrays of fixed size: a page open all night holds no more than at noon. */
const RING_SIZE = 7_200;
export const SAMPLE_EVERY_MS = 1_000;

export interface Ring {
  /** `NaN` where a value was not fresh: the curve has a hole there, never a bridge. */
  push(atSeconds: number, lye: number, oils: number): void;
  /** Seconds, lye, oils, oldest first, in °C. The arrays are the ring's own and change with the next push. */
  read(): readonly [Float64Array, Float64Array, Float64Array];
}

export const createRing = (size = RING_SIZE): Ring => {
  const at = new Float64Array(size);
  const lye = new Float64Array(size);
  const oils = new Float64Array(size);
  let used = 0;
  return {
    push(seconds, lyeValue, oilsValue) {
      if (used === size) for (const column of [at, lye, oils]) column.copyWithin(0, 1);
      else used += 1;
      at[used - 1] = seconds;
      lye[used - 1] = lyeValue;
      oils[used - 1] = oilsValue;
    },
    read: () => [at.subarray(0, used), lye.subarray(0, used), oils.subarray(0, used)],
  };
};
