import { isSignedBy, readNote } from '#lib/record/note';
import { fromBase64 } from '#lib/units/base64';
import { ed25519 } from './ed25519';
import type { JournalName } from './tables';
import type { ProofFold, SignedHead } from './proof-fold';
import { unsignedHead } from './words';

/** Heads whose signature is not that of the record's key at their time, in plain sentences. `newest`: so many of each journal, at most. */
export const signatureFindings = (proof: ProofFold, newest: number): readonly string[] =>
  (['bench', 'workshop'] as const).flatMap((journal: JournalName) =>
    proof.signed[journal]
      .slice(-newest)
      .filter((head) => !isGenuine(head))
      .map(({ checkpoint }) => unsignedHead(journal, checkpoint.seq)),
  );

const isGenuine = ({ note, publicKey }: SignedHead): boolean => {
  const read = readNote(note);
  const key = fromBase64(publicKey);
  return read !== null && key !== null && isSignedBy(read, key, ed25519);
};
