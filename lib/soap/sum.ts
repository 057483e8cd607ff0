/** The sum of one figure of each item. */
export const sumOf = <T>(items: readonly T[], of: (item: T) => number): number => {
  let sum = 0;
  for (const item of items) sum += of(item);
  return sum;
};
