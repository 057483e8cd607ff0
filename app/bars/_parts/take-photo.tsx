'use client';
import { useState } from 'react';
import * as z from 'zod/mini';
import type { PhotoAnswer } from '#lib/protocol/afterwards';
import type { HttpProblem } from '#lib/protocol/http';
import { sendFile } from '../../_ui/api';
import { on } from '../../_ui/classes';
import { TextField } from '../../_ui/fields';
import { Problem } from '../../_ui/problem';
import { lotMessages } from '../messages-lot';
import { Frame } from './frame';
import { mayLook, ThroughFrame } from './through-frame';
import type { Wanting } from './use-want';

const SENT = z.looseObject({ sha256: z.string() });
const TYPES = 'image/jpeg,image/png,image/webp';

/** A picture that nobody has kept yet, under an address of this page. */
interface Taken {
  readonly file: File;
  readonly href: string;
}

interface Props {
  readonly wanting: Wanting;
  /** Address of the photograph before; `null`: this is the first. */
  readonly last: string | null;
}

/** The next photograph: through the frame where a camera can be looked through, or a file; seen in its frame before it is kept. */
export function TakePhoto({ wanting, last }: Props) {
  const [taken, setTaken] = useState<Taken | null>(null);
  const [looking, setLooking] = useState(false);
  const { colour } = lotMessages;
  const show = (file: File | null): void => {
    if (taken !== null) URL.revokeObjectURL(taken.href);
    setTaken(file === null ? null : { file, href: URL.createObjectURL(file) });
  };
  if (taken !== null) return <Chosen taken={taken} wanting={wanting} onDone={() => show(null)} onOther={show} />;
  if (looking)
    return (
      <ThroughFrame
        last={last}
        onLeave={() => setLooking(false)}
        onTaken={(file) => {
          setLooking(false);
          show(file);
        }}
      />
    );
  return (
    <div className={on('acts')}>
      <Picking words={colour.take} onFile={show} />
      {mayLook() ? (
        <button type="button" className={on('act')} onClick={() => setLooking(true)}>
          {colour.look}
        </button>
      ) : null}
    </div>
  );
}

function Picking({ words, onFile }: { readonly words: string; readonly onFile: (file: File) => void }) {
  const picked = (list: FileList | null): void => {
    const [file] = list ?? [];
    if (file !== undefined) onFile(file);
  };
  return (
    <label className={on('act')}>
      {words}
      <input className="unseen" type="file" accept={TYPES} capture="environment" onChange={({ target }) => picked(target.files)} />
    </label>
  );
}

interface ChosenProps extends Pick<Props, 'wanting'> {
  readonly taken: Taken;
  readonly onDone: () => void;
  readonly onOther: (file: File) => void;
}

/** What was taken, as it will stand beside the others: nothing is kept before it was looked at. */
function Chosen({ taken: { file, href }, wanting, onDone, onOther }: ChosenProps) {
  const [note, setNote] = useState('');
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const { colour } = lotMessages;
  const keep = async (): Promise<void> => {
    setBusy(true);
    const sent = await sendFile<PhotoAnswer>(SENT, '/api/photos', file);
    setProblem(sent.ok ? null : sent.problem);
    if (sent.ok && (await wanting.want({ kind: 'photo', sha256: sent.value.sha256, note: note.trim() }))) return onDone();
    return setBusy(false);
  };
  return (
    <>
      <div className={on('form gap')}>
        <Frame href={href} alt={colour.chosen}>
          {colour.asItStands}
        </Frame>
        <TextField id="photo-note" label={colour.note_} value={note} onChange={setNote} />
      </div>
      <div className={on('acts')}>
        <button type="button" className={on('act first')} disabled={busy} onClick={() => void keep()}>
          {busy ? colour.sending : colour.keep}
        </button>
        {busy ? null : <Picking words={colour.other} onFile={onOther} />}
        <button type="button" className={on('link')} disabled={busy} onClick={onDone}>
          {colour.leave}
        </button>
      </div>
      {problem === null ? null : <Problem problem={problem} />}
    </>
  );
}
