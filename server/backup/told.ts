import type { ProblemText } from '../store/problem';
import type { Copied } from './copy';

/** What the copying process says when it is done. */
export type Told = { readonly ok: true; readonly copied: Copied } | ({ readonly ok: false } & ProblemText);
