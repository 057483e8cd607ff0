/** Words of a head, wherever one is shown. */
export const proofMessages = {
  facts: { words: 'In words', line: 'Line', signed: 'Signed', stamped: 'Stamped', link: 'Whole', of: 'Of' },
  stampedBy: (at: string, url: string) => `${at}, by ${url}`,
  notStamped: 'by nobody else',
  code: 'Code with this head: whose journal, how many lines, the link of the newest',
  caption: 'The head',
} as const;
