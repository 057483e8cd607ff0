import type { HttpProblem } from '#lib/protocol/http';

/** What is said when no problem in words came back. */
export const apiMessages = {
  gone: {
    error: 'The bench machine does not answer.',
    kept: 'Everything that was accepted is in its record.',
    todo: 'See that it is on and that the program runs there (npm start); then try again.',
  },
  unreadable: {
    error: 'The answer is not one this page understands.',
    kept: 'Nothing was changed.',
    todo: 'Page and program are of different versions: load the page again.',
  },
  unexpected: (status: number): HttpProblem => ({
    error: `The bench machine could not answer (${status}).`,
    kept: 'What was accepted before is kept.',
    todo: 'Try again; if it stays, look at the log of the program.',
  }),
} as const;
