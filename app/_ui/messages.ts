/** Words of the frame shared by all pages. */
export const messages = {
  product: 'Potwatch',
  about: 'The bench scale and the probes lead the weigh-in of a soap batch and keep its record.',
  pages: 'Pages',
  skip: 'To the page',
  nav: { today: 'Today', batches: 'Batches', bench: 'Bench', setup: 'Setup' },
  voices: {
    lead: 'How figures are set',
    entered: 'plain: entered by hand',
    worked: 'dotted: worked out, opens to its workings',
    measured: 'typewriter face: measured by an instrument',
  },
} as const;
