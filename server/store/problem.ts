/**
 * Something is wrong with the record's file, in three plain sentences for the person at the bench. Thrown when the store
 * cannot be opened at all, or when one piece of it cannot be read.
 */
export class StoreProblem extends Error {
  readonly happened: string;
  readonly kept: string;
  readonly todo: string;
  constructor(problem: ProblemText, cause?: unknown) {
    super(inOneLine(problem), cause === undefined ? undefined : { cause });
    this.name = 'StoreProblem';
    this.happened = problem.happened;
    this.kept = problem.kept;
    this.todo = problem.todo;
  }
}

/** What happened, what is kept, what to do. */
export interface ProblemText {
  readonly happened: string;
  readonly kept: string;
  readonly todo: string;
  /** Of damage: every place it is at, as far as a person reads them. */
  readonly places?: readonly string[];
}

export const inOneLine = (problem: ProblemText): string => `${problem.happened} ${problem.kept} ${problem.todo}`;

/** The system's or the database's own name for what went wrong. */
export const codeOf = (cause: unknown): string => (cause as { readonly code?: string }).code ?? String(cause);
