import { messages } from '../messages';

/** Limits for joining where no plan states its own: common practice, no source, and said so. Thousandths of a degree. */
export const COMMON = { window: { low: 30_000, high: 50_000 }, allowedApart: 6_000, source: messages.temperatures.noBatch };
