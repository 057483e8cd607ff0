import { capital, counted } from '#lib/words/words';

/** Words of the list of formulas. */
export const messages = {
  title: 'Formulas',
  lead: {
    none: 'A formula says what a soap is made of. From it come the weights the bench leads through, each open to its workings.',
    some: (count: number) =>
      `${capital(counted(count, 'formula'))}. A change is kept as another version; no batch made before is touched by it.`,
  },
  list: {
    title: 'Kept here',
    note: 'Open one to read or change it, and to make a batch ready.',
    heads: { name: 'formula', version: 'version', when: 'kept', what: 'made of' },
    own: 'one of yours',
    scented: 'scented',
  },
  drafts: {
    title: 'Begun on this screen',
    note: 'Typed here and not kept yet. Nobody else sees them.',
    unnamed: 'Without a name yet',
    changed: (version: number) => `changed since version ${version}`,
    away: (version: number) => `changed since version ${version}; the formula itself was put away`,
    fresh: 'never kept',
  },
  empty: {
    title: 'How one comes here',
    steps: [
      'Begin with the oils, as shares or as weights, just as your notes have them.',
      'Say how much fat stays unsoaped and how strong the lye is. It is asked once and remembered as yours.',
      'Choose moulds, read what stands under “Before you weigh”, and make a batch ready. The bench leads through exactly those lines.',
    ],
  },
  acts: { fresh: 'New formula', samples: 'Put the sample formulas on the shelf', import: 'Take formulas from a file' },
  samples: {
    title: 'To practise with',
    what: 'Three formulas of an invented workshop, with the lots, moulds and vessels they ask for, and what that workshop says of its pace, its room and what stays in the pot. What is there already stays as it is.',
    putting: 'Putting them there',
  },
  file: {
    title: 'From another workshop',
    what: 'A file of formulas that this program wrote. It is taken whole or not at all; what is here already by the same name stays.',
    field: 'File of formulas (JSON)',
    taken: (count: number) => `${capital(counted(count, 'document'))} taken in.`,
    habits: 'how you work',
    left: (names: string) => `Here already, and left as they are: ${names}.`,
    at: (line: number) => `Line ${line}`,
    in: (of: string) => (of === '' ? '' : `In the ${of}: `),
    refused: 'Nothing of the file was taken. What is wrong with it:',
  },
} as const;
