'use client';
import { useState } from 'react';
import type { HttpProblem } from '#lib/protocol/http';
import type { Noun } from '#lib/work/shelf/shelf';
import { shelfApi } from '../shelf-api';
import { keptMessages } from './messages';
import type { Errors } from './typed';

interface Away {
  readonly id: string;
  readonly name: string;
  readonly version: number;
  readonly document: object;
}

/** Keeping, putting away and taking out again, and what came of it. */
export interface Keeping {
  readonly waits: boolean;
  readonly problem: HttpProblem | null;
  readonly said: string;
  /** What the server found wrong, by path. */
  readonly fields: Errors;
  /** What can be taken out again. */
  readonly away: Away | null;
  readonly keep: (ask: Omit<Away, 'version'> & { readonly expected: number; readonly note: string }) => Promise<boolean>;
  readonly putAway: (one: Away) => Promise<void>;
  readonly takeBack: () => Promise<void>;
  readonly forget: () => void;
}

interface State {
  readonly waits: boolean;
  readonly problem: HttpProblem | null;
  readonly said: string;
  readonly fields: Errors;
}
/** HTTP: another version came in between. */
const CHANGED = 409;

const QUIET: State = { waits: false, problem: null, said: '', fields: {} };

export const useKeeping = (noun: Noun, onKept: () => void): Keeping => {
  const [state, setState] = useState(QUIET);
  const [away, setAway] = useState<Away | null>(null);
  const put = async (id: string, expected: number, document: object | null, note: string, said: string): Promise<number | null> => {
    setState({ ...QUIET, waits: true });
    const answer = await shelfApi.put(noun, id, expected, document, note);
    if (answer.ok) {
      setState({ ...QUIET, said });
      onKept();
      return answer.value.version;
    }
    // What stands there now is shown beside what was typed.
    if (answer.status === CHANGED) onKept();
    setState({ ...QUIET, problem: answer.problem, fields: Object.fromEntries(answer.fields.map(({ path, says }) => [path, says])) });
    return null;
  };
  return {
    ...state,
    away,
    async keep({ id, name, document, expected, note }) {
      setAway(null);
      return (await put(id, expected, document, note, keptMessages.kept(name))) !== null;
    },
    async putAway(one) {
      const version = await put(one.id, one.version, null, '', keptMessages.gone(one.name));
      if (version !== null) setAway({ ...one, version });
    },
    async takeBack() {
      if (away === null) return;
      if ((await put(away.id, away.version, away.document, '', keptMessages.returned(away.name))) !== null) setAway(null);
    },
    forget: () => setState(QUIET),
  };
};
