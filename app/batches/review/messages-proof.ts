/** Words of what proves one batch. */
export const proofMessages = {
  title: 'Proof',
  note: 'A signed head shows that nothing in this batch was changed, put in, left out or moved since it was signed.',
  honest:
    'Not that it is the head of that day: whoever holds this machine holds the key. Only a head kept elsewhere shows that no whole new record was written, and only for lines up to it.',
  none: 'No signed head has all of this batch in it yet. One is signed when the batch ends, daily, and when its bundle is made.',
  withdrawn: (count: number) =>
    count === 1
      ? 'The text of one note was withdrawn; its hash still holds.'
      : `The texts of ${count} notes were withdrawn; their hashes still hold.`,
  acts: { bundle: 'Download the bundle', head: 'Save this head' },
  bundle:
    'The bundle is one file a stranger can check without Potwatch: what was entered, the chain, the heads, the public key, a checker.',
  withdraw: {
    title: 'Withdraw the text of a note',
    what: 'Its words are gone for good, here and in what is found by them. Copies and bundles made before keep them. That it was withdrawn, by whom and why stays.',
    which: 'Note',
    choose: 'Choose a note',
    why: 'Why',
    act: 'Withdraw it for good',
  },
} as const;

/** What stands in a note that was withdrawn. */
export const WITHDRAWN_TEXT = '(withdrawn)';
