'use client';
import { useState } from 'react';
import { afterwardsApi } from '../../../_ui/afterwards-api';
import { Choice, FieldError, TextField } from '../../../_ui/fields';
import { afterwardsMessages as words } from '../messages-afterwards';
import { SaidForm } from './said-form';
import type { SaidProps } from './said-form';
import { on } from './classes';

type Subject = keyof typeof words.subjects;
const SUBJECTS = Object.entries(words.subjects) as [Subject, string][];

/** The picture is kept first, by its content; then the entry that names it. */
export function PictureForm(props: SaidProps) {
  const [file, setFile] = useState<File | null>(null);
  const [of, setOf] = useState<Subject>('');
  const [caption, setCaption] = useState('');
  const [tried, setTried] = useState(false);
  const want = async () => {
    setTried(true);
    if (file === null) return null;
    if (file.size > afterwardsApi.largest) return words.pictureTooLarge(file.name);
    const answer = await afterwardsApi.sendPhoto(file);
    return answer.ok ? ({ kind: 'keep-photo', sha256: answer.value.sha256, of, caption: caption.trim() } as const) : answer.problem;
  };
  return (
    <SaidForm {...props} want={want}>
      <div className={on('whole')}>
        <label className={on('label')} htmlFor="picture">
          {words.pictureFile}
        </label>
        <input
          id="picture"
          type="file"
          accept="image/jpeg,image/png,image/webp"
          aria-describedby="picture-error"
          onChange={(event) => setFile(event.target.files?.[0] ?? null)}
        />
        <FieldError id="picture" error={tried && file === null ? words.missing : ''} />
      </div>
      <Choice id="picture-of" label={words.pictureOf} value={of} options={SUBJECTS} onChange={setOf} />
      <TextField id="picture-caption" label={words.pictureCaption} value={caption} onChange={setCaption} />
    </SaidForm>
  );
}
