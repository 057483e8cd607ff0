/** Words of what proves the record as a whole. */
export const proofMessages = {
  title: 'Proof',
  note: 'Every line of the record carries the hash of the one before. Its newest link is signed when a batch ends, and daily: that is a head.',
  honest:
    'The key lies on this machine. So a whole new record, or a tail cut off, shows only against a head kept elsewhere, and nothing is proven of what came after that head. Print records, hand on bundles, or have heads stamped.',
  none: 'No head has been signed yet.',
  from: (words: string, line: string) => `This record goes on from a copy of another one, which ended at line ${line}: ${words}.`,
  key: 'Public key',
  withdrawn: (count: number) =>
    count === 1
      ? 'The text of one note was withdrawn; its hash still holds.'
      : `The texts of ${count} notes were withdrawn; their hashes still hold.`,
  acts: { save: 'Save this head', check: 'Check everything now', checking: 'Checking …' },
  sound: (lines: string) => `All ${lines} lines hold, and so does everything stored beside them.`,
  wrong: 'The record is damaged. Nothing more is written to it; what reads right is still shown.',
  stamp: {
    title: 'Time stamps from elsewhere',
    what: 'An authority can state that it saw a head at a time (RFC 3161). Only the head’s hash leaves this machine, and nothing does while no address stands here.',
    label: 'Address of the authority',
    hint: 'https://…',
    keep: 'Ask there from now on',
    off: 'Ask nobody',
  },
} as const;
