'use client';
import { useState } from 'react';
import { FILE_TYPES, LARGEST_FILE } from '#lib/protocol/shelf';
import type { HttpProblem } from '#lib/protocol/http';
import type { FileRef } from '#lib/work/formula/index';
import { on } from '../../_ui/classes';
import { Problem } from '../../_ui/problem';
import { shelfApi } from '../../_ui/shelf-api';
import { messages } from '../messages';

interface Props {
  readonly files: readonly FileRef[];
  readonly onFiles: (files: readonly FileRef[]) => void;
}

/** The files of one lot. A file is kept at once by its content; the lot names it once the lot is kept. */
export function FilesField({ files, onFiles }: Props) {
  const [waits, setWaits] = useState(false);
  const [problem, setProblem] = useState<HttpProblem | null>(null);
  const { files: words } = messages;
  const take = async (file: File): Promise<void> => {
    if (file.size > LARGEST_FILE) return setProblem(words.large(file.name));
    setWaits(true);
    setProblem(null);
    const answer = await shelfApi.keepFile(file);
    setWaits(false);
    if (!answer.ok) return setProblem(answer.problem);
    const { sha256, name, type } = answer.value;
    return onFiles([...files.filter((one) => one.sha256 !== sha256), { sha256, name, type }]);
  };
  return (
    <>
      <label className={on('label')} htmlFor="lot-file">
        {words.field}
      </label>
      <input
        id="lot-file"
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
      {files.length === 0 ? null : (
        <ul>
          {files.map(({ sha256, name }) => (
            <li key={sha256}>
              <a href={shelfApi.fileAddress(sha256)} download={name}>
                {name}
              </a>{' '}
              <button
                type="button"
                className={on('link')}
                aria-label={words.removeSpoken(name)}
                onClick={() => onFiles(files.filter((one) => one.sha256 !== sha256))}
              >
                {words.remove}
              </button>
            </li>
          ))}
        </ul>
      )}
      {problem === null ? null : <Problem problem={problem} />}
    </>
  );
}
