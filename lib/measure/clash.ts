import type { InstrumentConfig } from './instrument';

/**
 * Why this instrument cannot stand beside those: one port answers one instrument, and one place (a scale's part, a probe's vessel) has
 * one. Of two the second would stay silent, or speak for the first. `null`: it can. One of the same id is its own earlier self.
 * `deviceOf`: what a name leads to now, since one port goes by several.
 */
export const clashOf = (
  others: readonly InstrumentConfig[],
  config: InstrumentConfig,
  deviceOf: (path: string) => string,
): { readonly what: 'port' | 'place'; readonly other: InstrumentConfig } | null => {
  for (const other of others) {
    if (other.id === config.id) continue;
    if (deviceOf(other.path) === deviceOf(config.path)) return { what: 'port', other };
    if (placeOf(config) !== null && placeOf(other) === placeOf(config)) return { what: 'place', other };
  }
  return null;
};

const placeOf = (config: InstrumentConfig): string | null => (config.kind === 'scale' ? config.role : config.use);
