/** Density of the standard normal distribution. */
const density = (z: number): number => Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);

/** Share of the standard normal below z. Abramowitz & Stegun 26.2.17 (from memory), within 7.5e-8. */
export const normalBelow = (z: number): number => {
  if (z > 0) return 1 - normalBelow(-z);
  const t = 1 / (1 - 0.2316419 * z);
  return density(z) * t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
};
