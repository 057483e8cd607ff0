import type { Narrowing, WidthPart } from '#lib/soap/poured/types';
import { SET_ASIDE, STATED } from '#lib/work/batch/poured/stated';
import type { Unworked } from '#lib/work/batch/poured/types';

/** Words of a batch as poured, at the bench and on paper. `name`: of a material or a scale. */
export const potMessages = {
  unworked: {
    'typed-plan': 'not worked out for a typed plan',
    'not-frozen': 'not worked out: an older program kept too little',
    'unknown-line': 'not worked out: nobody knows what one line is made of',
  } satisfies Record<Unworked['kind'], string>,
  parts: {
    sv: (name) => `saponification value, ${name.toLowerCase()}`,
    purity: (name) => `purity, ${name.toLowerCase()}`,
    reading: (name) => `readings, ${name}`,
    tare: (name) => `the zero of the ${name}`,
    gain: (name) => `how true the ${name} is`,
    typed: (name) => `${name.toLowerCase()} by hand`,
    stated: (name) =>
      name === SET_ASIDE
        ? `what was set aside by a person’s word, ${100 * STATED.withdrawn} % of it unsure`
        : `what was stated, ${name.toLowerCase()}`,
    'to-come': (name) => `${name.toLowerCase()}, still to weigh`,
  } satisfies Record<WidthPart['what'], (name: string) => string>,
  narrowing: {
    certificate: (name) => `a certificate for the ${name.toLowerCase()}`,
    'check-scale': (name) => `the ${name} checked with a known mass`,
    weigh: (name) => `${name.toLowerCase()} weighed, not typed`,
    'finer-scale': (name) => `a finer scale than the ${name}`,
  } satisfies Record<Narrowing['by'], (name: string) => string>,
} as const;
