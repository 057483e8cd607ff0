'use client';
import type { FileRef } from '#lib/work/formula/index';
import { on } from '../../_ui/classes';
import { KeptFile } from '../../_ui/kept-file';
import { shelfApi } from '../../_ui/shelf-api';
import { messages } from '../messages';

interface Props {
  readonly files: readonly FileRef[];
  readonly onFiles: (files: readonly FileRef[]) => void;
}

/** The files of one lot. A file is kept at once by its content; the lot names it once the lot is kept. */
export function FilesField({ files, onFiles }: Props) {
  const { files: words } = messages;
  return (
    <>
      <KeptFile
        id="lot-file"
        label={words.field}
        onKept={({ sha256, name, type }) => onFiles([...files.filter((one) => one.sha256 !== sha256), { sha256, name, type }])}
      />
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
    </>
  );
}
