import type { BundleFinding } from '#lib/record/bundle/check';
import type { EntryFinding } from '#lib/record/bundle/entries';
import type { Break } from '#lib/record/verify';

/** One finding in a plain sentence, with the place it is at. */
export const inWords = (finding: BundleFinding): string => {
  if (finding.on === 'entries') return ofEntries(finding.found);
  if (finding.on === 'chain') return ofChain(finding.found);
  if (finding.on === 'chain-row') return finding.row === 0 ? 'The chain is missing.' : `Row ${finding.row} of the chain cannot be read.`;
  if (finding.on === 'head') return `${finding.part} ${HEAD[finding.why]}`;
  if (finding.on === 'versions') return `Of ${finding.stream} nobody shows version ${finding.missing.join(', ')}: entries were left out.`;
  if (finding.on === 'part') return `${finding.name} ${PART[finding.why]}`;
  if (finding.on === 'kept') return `The kept head of line ${finding.checkpoint.seq} ${KEPT[finding.why]}`;
  if (finding.on === 'words') return `No line of this piece of the chain reads "${finding.words}".`;
  if (finding.on === 'seal') return SEAL[finding.why];
  return 'The bundle is not signed with the key that was given.';
};

const HEAD = {
  unreadable: 'is missing or is no signed head.',
  signature: 'is not signed by a key of the bundle.',
  start: 'is not where the chain begins.',
} as const;

const SEAL = {
  missing: 'seal.txt is missing or is none: nobody says that these parts are all there were.',
  signature: 'seal.txt is not signed by the key of the head after the batch.',
  changed: 'The parts are not those the bundle was sealed with: entries were left out, or a page was written anew.',
} as const;

const PART = {
  changed: 'was changed after the bundle was made.',
  missing: 'is missing.',
  unlisted: 'was put in after the bundle was made.',
  misnamed: 'is not what its name says.',
} as const;

const KEPT = {
  'other-line': 'is of another line: the record was written anew.',
  'other-record': 'is of another record.',
  'out-of-reach': 'lies outside this piece of the chain; nothing follows from it.',
} as const;

const ofEntries = (found: EntryFinding): string => {
  if (found.how === 'cut') return `The end was cut off: the entries from line ${found.seq} to line ${found.to} are missing.`;
  if (found.how === 'inserted') return `Entry ${found.entry} was put in: no line of the journal was made of it.`;
  if (found.how === 'deleted') return `The entry of line ${found.seq} was taken out.`;
  return found.how === 'moved'
    ? `Entry ${found.entry} was moved: it belongs to line ${found.seq}.`
    : `Entry ${found.entry} was changed: line ${found.seq} of the journal was made of another.`;
};

const ofChain = (found: Break): string => {
  if (found.how === 'missing') return `Lines ${found.seq} to ${found.to} of the chain were taken out.`;
  if (found.how === 'short') return `The chain was cut off before the signed head: lines ${found.seq} to ${found.to} are missing.`;
  if (found.how === 'out-of-place') return `Line ${found.seq} of the chain stands where it does not belong.`;
  if (found.how === 'other-head') return `Line ${found.seq} of the chain is not the one the signed head was made of.`;
  return `The chain breaks at line ${found.seq}: its leaf or its link was changed.`;
};
