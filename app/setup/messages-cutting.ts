/** Words of what cuts logs, and of when bars are ready. */
export const cutting = {
  cutters: {
    title: 'Cutters',
    note: 'Of a frame count the wires and measure one gap; of one against a stop say from which thickness to which it is used.',
    empty: 'No cutter is kept. Add one, and a log’s cut plan starts from it.',
    add: 'Add a cutter',
    caption: 'Cutters of this workshop',
    heads: { name: 'cutter', kind: 'kind', gap: 'bars', kerf: 'one cut takes', unit: 'mm' },
    name: 'Its name',
    kind: 'Kind',
    kinds: { fixed: 'wires at one distance', adjustable: 'against a stop' },
    wires: 'Wires',
    gap: 'Gap between two wires, mm',
    kerf: 'One cut takes, mm',
    least: 'Thinnest bar, mm',
    most: 'Thickest bar, mm',
    ends: 'Ends of a log that are faced',
    trim: 'Taken off each faced end, mm',
    range: (least: string, most: string) => `${least} to ${most}`,
  },
  cure: {
    title: 'When bars are ready',
    note: 'Your own rule: days from cutting, a loss a week over 14 days, or both. 28 days and 0.5 % a week stand here until you say otherwise: common practice, no source.',
    kept: 'Your rule is kept.',
    days: 'Days from cutting',
    perWeek: 'Lost in a week below, %',
    photos: 'Photographed on days',
    photosHint: '0 1 2 4 7 14 28',
    places: 'Places on the shelf, one a line',
    said: (days: string, perWeek: string) =>
      [days === '' ? '' : `${days} days`, perWeek === '' ? '' : `under ${perWeek} % a week`].filter((one) => one !== '').join(' and '),
  },
} as const;
