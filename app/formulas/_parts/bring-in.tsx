'use client';
import { useState } from 'react';
import type { HttpProblem } from '#lib/protocol/http';
import { readFile } from '#lib/work/formula/index';
import type { FormulaFile, Problem as Wrong } from '#lib/work/formula/index';
import { NO_HABITS } from '#lib/work/shelf/documents';
import type { Habits } from '#lib/work/shelf/documents';
import { Problem } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { on } from '../../_ui/classes';
import { messages } from '../messages';
import { shelfApi } from '../../_ui/shelf-api';
import { problemText } from '../../_ui/problem-messages';
import { putAll } from './put-all';

const EMPTY: FormulaFile = {
  format: 'potwatch-formulas',
  version: 1,
  formulas: [],
  materials: [],
  preparations: [],
  lots: [],
  moulds: [],
};

interface Result {
  readonly said: readonly string[];
  readonly wrong: readonly Wrong[];
  readonly problem: HttpProblem | null;
}

const NOTHING: Result = { said: [], wrong: [], problem: null };

/** Puts what a file or the program brings, and says what came of it. */
const useBringing = (onPut: () => void) => {
  const [result, setResult] = useState(NOTHING);
  const [busy, setBusy] = useState(false);
  const bring = async (take: () => ReturnType<typeof putAll>): Promise<void> => {
    setBusy(true);
    const { put, left, problem } = await take();
    setBusy(false);
    const { file } = messages;
    setResult({ said: [file.taken(put), ...(left.length === 0 ? [] : [file.left(left.join(', '))])], wrong: [], problem });
    onPut();
  };
  return { result, setResult, busy, bring };
};

/** In practice only: an invented workshop's formulas with all they ask for. Fetched when asked for. */
export function Samples({ onPut }: { readonly onPut: () => void }) {
  const { result, busy, bring } = useBringing(onPut);
  const { samples, acts } = messages;
  const put = (): Promise<void> =>
    bring(async () => {
      const [{ SAMPLE_WORKSHOP }, { SAMPLE_FORMULAS }] = await Promise.all([
        import('#lib/work/formula/sample/workshop'),
        import('#lib/work/formula/sample/formulas'),
      ]);
      const { materials, preparations, lots, moulds, vessels, pace, room, losses } = SAMPLE_WORKSHOP;
      // Superfat and strength of the lye are asked of every maker: no sample says them for one.
      const habits: Habits = { ...NO_HABITS, pace, room, losses };
      return putAll({ ...EMPTY, formulas: SAMPLE_FORMULAS, materials, preparations, lots, moulds }, { vessels, habits });
    });
  return (
    <PaperSection name={samples.title}>
      <p className={on('reading')}>{samples.what}</p>
      <div className={on('acts')}>
        <button type="button" className={on('act')} disabled={busy} onClick={() => void put()}>
          {busy ? samples.putting : acts.samples}
        </button>
      </div>
      <Said result={result} />
    </PaperSection>
  );
}

/** A file of formulas: whole or not at all. */
export function FromFile({ onPut }: { readonly onPut: () => void }) {
  const { result, setResult, bring } = useBringing(onPut);
  const { file: words } = messages;
  const take = async (file: File): Promise<void> => {
    const workshop = await shelfApi.workshop();
    if (!workshop.ok) return setResult({ ...NOTHING, problem: workshop.problem });
    const read = readFile(await file.text(), workshop.value.context);
    if (read.kind === 'problems') return setResult({ ...NOTHING, wrong: read.problems });
    return bring(() => putAll(read.file));
  };
  return (
    <PaperSection name={words.title}>
      <p className={on('reading')}>{words.what}</p>
      <p>
        <label className={on('label')} htmlFor="formula-file">
          {words.field}
        </label>
        <input
          id="formula-file"
          type="file"
          accept="application/json,.json"
          onChange={(event) => {
            const [file] = event.target.files ?? [];
            if (file !== undefined) void take(file);
            event.target.value = '';
          }}
        />
      </p>
      <Said result={result} />
    </PaperSection>
  );
}

function Said({ result: { said, wrong, problem } }: { readonly result: Result }) {
  const { file } = messages;
  return (
    <>
      {said.length === 0 ? null : (
        <p>
          <output>{said.join(' ')}</output>
        </p>
      )}
      {problem === null ? null : <Problem problem={problem} />}
      {wrong.length === 0 ? null : (
        <div role="alert">
          <p className={on('warn')}>{file.refused}</p>
          <ul>
            {wrong.map((one) => (
              <li key={`${one.path} ${one.code} ${one.params['line'] ?? ''}`}>
                {one.params['line'] === undefined ? null : <b>{file.at(Number(one.params['line']))}: </b>}
                {one.code === 'wrong-shape' ? null : file.in(String(one.params['of'] ?? ''))}
                {problemText(one)} {one.path === '' ? null : <code>{one.path}</code>}
              </li>
            ))}
          </ul>
        </div>
      )}
    </>
  );
}
