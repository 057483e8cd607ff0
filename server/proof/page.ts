import type { HeadPage } from '#lib/protocol/proof';
import { printedHead } from '#lib/record/printed';
import type { SignedHead } from '../store/proof-fold';
import type { RecordProof } from '../store/proof-store';
import { NATIVE } from '../store/sums';

/** A signed head as pages and paper show it, with the stamp on its note where there is one. */
export const headPage = (proof: Pick<RecordProof, 'stampOf'>, head: SignedHead | null): HeadPage | null => {
  if (head === null) return null;
  const { checkpoint, note, wall } = head;
  const stamp = proof.stampOf(NATIVE.ofText(note));
  return {
    ...printedHead(checkpoint),
    note,
    wall,
    stamp: stamp === null ? null : { at: stamp.at, url: stamp.url, token: stamp.token },
  };
};
