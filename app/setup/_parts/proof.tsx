'use client';
import { useState } from 'react';
import type { HttpProblem } from '#lib/protocol/http';
import type { ProofPage, VerifyAnswer } from '#lib/protocol/proof';
import { numberText } from '#lib/units/format';
import { useDisplay } from '../../_live/use';
import { TextField } from '../../_ui/fields';
import { Problem, ProblemSection } from '../../_ui/problem';
import { proofApi } from '../../_ui/proof/api';
import { Breaking, ShownHead } from '../../_ui/proof/head';
import { PaperSection } from '../../_ui/section';
import { useAsked } from '../../_ui/use-asked';
import { proofMessages as words } from '../messages-proof';
import { on } from './classes';

/** The newest head of the record, a check of all of it, and stamps from elsewhere. */
export function ProofSection() {
  const { locale } = useDisplay();
  const { asked, again, put } = useAsked(proofApi.page);
  if (asked.state === 'failed') return <ProblemSection problem={asked.problem} onAgain={again} />;
  if (asked.state === 'asking') return null;
  const page = asked.value;
  const { bench: head, from, keys, withdrawn, trouble } = page;
  return (
    <PaperSection
      id="proof"
      name={words.title}
      note={
        <>
          <p>{words.note}</p>
          <p>{words.honest}</p>
        </>
      }
    >
      {page.readOnly === null ? null : <p className={on('warn reading')}>{page.readOnly}</p>}
      <Places findings={page.damage} />
      {trouble.signing === null ? null : <p className={on('warn reading')}>{trouble.signing}</p>}
      {from === null ? null : <p className={on('reading')}>{words.from(from.bench.words, numberText(from.bench.seq, locale))}</p>}
      {head === null ? <p className={on('reading')}>{words.none}</p> : <ShownHead head={head} code={proofApi.code} />}
      {keys === null ? null : (
        <p className={on('dim')}>
          {words.key}{' '}
          <code>
            <Breaking text={keys.bench} />
          </code>
        </p>
      )}
      {withdrawn === 0 ? null : <p className={on('dim')}>{words.withdrawn(withdrawn)}</p>}
      <Check canSave={head !== null} onChecked={again} />
      <Stamping key={page.stampUrl ?? ''} page={page} put={put} />
    </PaperSection>
  );
}

const LOOK_EVERY_MS = 2_000;

/** Everything read and hashed again, on demand. */
function Check({ canSave, onChecked }: { readonly canSave: boolean; readonly onChecked: () => void }) {
  const { locale } = useDisplay();
  const [busy, setBusy] = useState(false);
  const [found, setFound] = useState<VerifyAnswer | null>(null);
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const check = async (): Promise<void> => {
    setBusy(true);
    let answer = await proofApi.verify();
    while (answer.ok && answer.value.state === 'running') {
      await new Promise((resolve) => setTimeout(resolve, LOOK_EVERY_MS));
      answer = await proofApi.verifying();
    }
    setBusy(false);
    setFound(answer.ok && answer.value.state === 'done' ? answer.value : null);
    setProblem(answer.ok ? null : answer.problem);
    onChecked();
  };
  return (
    <>
      <div className={on('acts')}>
        <button type="button" className={on('act')} disabled={busy} onClick={() => void check()}>
          {busy ? words.acts.checking : words.acts.check}
        </button>
        {canSave ? (
          <a className={on('act')} href={proofApi.note} download="">
            {words.acts.save}
          </a>
        ) : null}
      </div>
      <div aria-live="polite" className={on('reading gap')}>
        {found?.ok === true ? <p>{words.sound(numberText(found.lines, locale))}</p> : null}
        {found?.ok === false ? <p className={on('warn')}>{words.wrong}</p> : null}
        {found === null || found.ok ? null : <Places findings={found.findings} />}
      </div>
      {problem === null ? null : <Problem problem={problem} />}
    </>
  );
}

/** Where the record is damaged; nothing where it is not. */
function Places({ findings }: { readonly findings: readonly string[] }) {
  if (findings.length === 0) return null;
  return (
    <ul className={on('reading')}>
      {findings.map((finding) => (
        <li key={finding}>{finding}</li>
      ))}
    </ul>
  );
}

function Stamping({ page, put }: { readonly page: ProofPage; readonly put: (page: ProofPage) => void }) {
  const [url, setUrl] = useState(page.stampUrl ?? '');
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const { stamp } = words;
  const set = async (wanted: string | null): Promise<void> => {
    const answer = await proofApi.stampAt(wanted);
    setProblem(answer.ok ? null : answer.problem);
    if (answer.ok) put(answer.value);
  };
  return (
    <>
      <h3 className={on('minor gap')}>{stamp.title}</h3>
      <p className={on('reading')}>{stamp.what}</p>
      {page.trouble.stamping === null ? null : <p className={on('warn')}>{page.trouble.stamping}</p>}
      <form className={on('form gap')} action={() => void set(url.trim())}>
        <TextField id="stamp-url" label={stamp.label} hint={stamp.hint} value={url} onChange={setUrl} />
        <div className={on('acts')}>
          <button type="submit" className={on('act')} disabled={url.trim() === '' || url.trim() === page.stampUrl}>
            {stamp.keep}
          </button>
          {page.stampUrl === null ? null : (
            <button type="button" className={on('act')} onClick={() => void set(null)}>
              {stamp.off}
            </button>
          )}
        </div>
      </form>
      {problem === null ? null : <Problem problem={problem} />}
    </>
  );
}
