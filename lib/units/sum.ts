/** The sum of one figure of each item. */
export const sumOf = <T>(items: readonly T[], of: (item: T) => number): number => {
  let sum = 0;
  for (const item of items) sum += of(item);
  return sum;
};

export const sumOfAll = (values: readonly number[]): number => sumOf(values, (one) => one);

/** Not a number where there are none. */
export const meanOf = (values: readonly number[]): number => sumOfAll(values) / values.length;
