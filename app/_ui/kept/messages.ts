import { capital, counted } from '../words';

/** Words of every list of kept documents and of the forms that change them. */
export const keptMessages = {
  open: 'Open',
  openSpoken: (name: string) => `Open ${name}`,
  close: 'Close',
  more: 'More',
  keep: 'Keep it',
  keepChange: 'Keep the change',
  keeping: 'Keeping it',
  leave: 'Leave it as it was',
  away: 'Put away',
  back: 'Take it out again',
  why: 'Why it is changed',
  optional: 'may stay empty',
  kept: (name: string) => `Kept: ${name}.`,
  gone: (name: string) => `${name} is put away. What used it before still finds it.`,
  returned: (name: string) => `${name} is back.`,
  summary: (count: number) =>
    `Not kept yet: ${count === 0 ? 'see below' : `${counted(count, 'field needs', 'fields need')} another look`}. What you typed stays here.`,
  newer: 'It was changed elsewhere since you began.',
  startOver: 'Begin again from the newest',
  versions: {
    show: (count: number) => capital(counted(count, 'earlier version')),
    caption: 'Versions, newest first',
    heads: { version: 'version', when: 'kept', what: 'said', why: 'why' },
    away: 'put away',
  },
  errors: {
    missing: 'Nothing stands here yet.',
    long: (most: number) => `At most ${most} letters.`,
    number: (text: string) => `“${text}” is no number.`,
    ambiguous: (one: string, other: string) => `Is that ${one} or ${other}? Write it without the mark that groups.`,
    whole: 'A whole number belongs here.',
    above: (bound: number) => (bound === 0 ? 'More than nothing belongs here.' : `More than ${bound} belongs here.`),
    from: (bound: number) => (bound === 0 ? 'Below zero means nothing here.' : `At least ${bound} belongs here.`),
    to: (bound: number) => `At most ${bound} belongs here.`,
    parts: (line: string) => `“${line}”: a name and its percentage belong in each line.`,
  },
} as const;
