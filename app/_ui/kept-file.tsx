'use client';
import { useState } from 'react';
import { FILE_TYPES, LARGEST_FILE } from '#lib/protocol/shelf';
import type { FileKept } from '#lib/protocol/shelf';
import type { HttpProblem } from '#lib/protocol/http';
import { on } from './classes';
import { keptMessages } from './kept/messages';
import { Problem } from './problem';
import { shelfApi } from './shelf-api';

interface Props {
  readonly id: string;
  readonly label: string;
  readonly onKept: (file: FileKept) => void;
}

/** Takes a file: it is kept at once, by its content; what names it is kept with its document. */
export function KeptFile({ id, label, onKept }: Props) {
  const [waits, setWaits] = useState(false);
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const { file: words } = keptMessages;
  const take = async (file: File): Promise<void> => {
    if (file.size > LARGEST_FILE) return setProblem(words.large(file.name));
    setWaits(true);
    setProblem(null);
    const answer = await shelfApi.keepFile(file);
    setWaits(false);
    if (!answer.ok) return setProblem(answer.problem);
    return onKept(answer.value);
  };
  return (
    <>
      <label className={on('label')} htmlFor={id}>
        {label}
      </label>
      <input
        id={id}
        type="file"
        accept={FILE_TYPES.join(',')}
        disabled={waits}
        onChange={(event) => {
          const [file] = event.target.files ?? [];
          if (file !== undefined) void take(file);
          event.target.value = '';
        }}
      />
      {waits ? (
        <p>
          <output>{words.keeping}</output>
        </p>
      ) : null}
      {problem === null ? null : <Problem problem={problem} />}
    </>
  );
}
