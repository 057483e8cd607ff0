/** Words of what goes along from practice to the real workshop. */
export const alongMessages = {
  open: 'Take formulas, moulds or cutters along',
  note: 'Only what is ticked goes along, as its first version there. Moulds and materials of your own that a formula names come with it; lots, batches, bars, orders and people never do.',
  formulas: 'Formulas',
  moulds: 'Moulds',
  cutters: 'Cutters',
} as const;
