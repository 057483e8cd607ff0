import type { Break } from '#lib/record/verify';
import type { ProblemText } from './problem';

/** Plain sentences for what is found wrong with a record's file. */

const JOURNAL = { bench: 'the batch journal', workshop: 'the workshop journal' } as const;

/** One break of a chain. */
export const inWords = (journal: keyof typeof JOURNAL, found: Break): string => {
  const { seq } = found;
  const last = 'to' in found ? found.to : seq;
  const one = seq === last;
  const which = `${one ? `Line ${seq}` : `Lines ${seq} to ${last}`} of ${JOURNAL[journal]}`;
  const what: Readonly<Record<Break['how'], string>> = {
    changed: 'was changed after it was written',
    unlinked: 'does not continue the line before it',
    'out-of-place': 'stands where it does not belong',
    'other-head': 'is not the one its kept head was taken from',
    missing: one ? 'is missing' : 'are missing',
    short: one ? 'was committed last and is missing' : 'were committed last and are missing',
  };
  return `${which} ${what[found.how]}.`;
};

/** A head of `lines` lines that somebody else signed, or nobody. */
export const unsignedHead = (journal: keyof typeof JOURNAL, lines: number): string =>
  `The head of ${JOURNAL[journal]} at line ${lines} is not signed with the key of this record.`;

export const bytesChanged = (sha256: unknown): string => `The stored bytes ${String(sha256).slice(0, 12)}… were changed.`;

export const ANSWER_CHANGED = 'An answer to a screen was changed after it was given.';

const TODO =
  'Stop Potwatch and copy the whole folder to a safe place. Then put the newest sound copy of its backups into another folder and start there: npm run restore -- --from COPY --data DIR, npm start -- --data DIR.';

export const damaged = (file: string, findings: readonly string[]): ProblemText => {
  const [first = 'The file is damaged.', ...more] = findings;
  return {
    happened: `The record ${file} is damaged. ${first}${more.length > 0 ? ` And ${more.length} more: see Setup.` : ''}`,
    kept: 'Nothing in it was changed or replaced. What still reads right is shown; nothing new can be recorded.',
    todo: TODO,
    places: findings.length > MOST ? [...findings.slice(0, MOST), `And ${findings.length - MOST} more, in the log.`] : findings,
  };
};

/** Of so many places a person sees where it is damaged. */
const MOST = 20;

export const unreadable = (file: string, why: string): ProblemText => ({
  happened: `The record ${file} cannot be read: ${why}`,
  kept: 'It was left exactly as it is, and no new file was put in its place. Nothing can be recorded.',
  todo: TODO,
});

/** `lines`: how many the heads file beside it tells of; `null` when that is damaged as well. */
export const gone = (file: string, lines: number | null): ProblemText => ({
  happened: `The record ${file} ${lines === null ? 'was written before' : `held ${lines} lines`} and is now missing or empty.`,
  kept: 'No new file was put in its place. Nothing can be recorded.',
  todo: 'Put the file back, with the one ending in -wal if there was one, and start again. If it was removed on purpose, remove the one ending in .heads too.',
});

export const diskFull = (file: string): ProblemText => ({
  happened: `The disk that holds ${file} is full. The last entry was not recorded.`,
  kept: 'Everything recorded before it is kept.',
  todo: 'Make room on the disk; recording goes on by itself.',
});

export const writeFailed = (file: string, detail: string): ProblemText => ({
  happened: `Writing to ${file} failed (${detail}). Whether the last entry was kept is known after a restart only.`,
  kept: 'Everything acknowledged before it is kept. Nothing more is written.',
  todo: 'Check the disk, then stop Potwatch and start it again.',
});

/** What the system and SQLite call a disk without room. */
const FULL: ReadonlySet<string> = new Set(['ENOSPC', 'EDQUOT', 'SQLITE_FULL']);

export const isFull = (code: string): boolean => FULL.has(code);

/** Whether it says of a place that nothing can be written there, and not of what is in it. */
export const isUnwritable = (code: string): boolean =>
  isFull(code) || ['EACCES', 'EPERM', 'EROFS'].includes(code) || /^SQLITE_(?:CANTOPEN|READONLY)/.test(code);

/** What to do where nothing can be written: by why not, since a right to write makes no room. */
export const whereUnwritable = (detail: string): string => {
  if (isFull(detail)) return 'The disk is full: make room on it and start again, or start with a folder on another one: --data DIR.';
  if (detail === 'EROFS') return 'The disk is mounted for reading only: mount it for writing, or start with another folder: --data DIR.';
  if (detail === 'ENOTDIR' || detail === 'EEXIST') return 'A file stands in its place: start with another folder: --data DIR.';
  return 'Give the user who runs Potwatch the right to write there, or start with another folder: --data DIR.';
};

export const notWritable = (file: string, detail: string): ProblemText => ({
  happened: `The record ${file} cannot be opened for writing (${detail}).`,
  kept: 'Nothing was changed.',
  todo: whereUnwritable(detail),
});

export const noFolder = (dir: string, detail: string): ProblemText => ({
  happened: `The data folder ${dir} cannot be made or written to (${detail}).`,
  kept: 'Nothing was changed.',
  todo: whereUnwritable(detail),
});

export const otherRealm = (file: string, realm: string): ProblemText => ({
  happened: `The file ${file} holds records of the realm "${realm}", not those its name says.`,
  kept: 'Nothing was changed.',
  todo: 'Give the file its old name back.',
});

export const newer = (file: string, version: number): ProblemText => ({
  happened: `The record ${file} was written by a newer Potwatch (schema ${version}).`,
  kept: 'Nothing was changed.',
  todo: 'Start the newer version.',
});

export const notSynchronous = (file: string, level: unknown): ProblemText => ({
  happened: `The database will not wait for the disk at every commit (synchronous is ${String(level)}, 2 was asked) in ${file}.`,
  kept: 'Nothing was changed.',
  todo: 'This Potwatch was built with an unfit SQLite: install it again.',
});

export const notBackedUp = (file: string, detail: string): ProblemText => ({
  happened: `The record ${file} must be brought to a new form, and the copy to be made before that failed (${detail}).`,
  kept: 'Nothing was changed.',
  todo: 'Make room on the disk, or give the right to write to its folder, and start again.',
});
