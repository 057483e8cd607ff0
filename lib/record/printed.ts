import { checkpointText } from './note';
import type { Checkpoint } from './note';
import { wordsOf } from './words';

/** A head as it goes on paper: on a batch record, on the label of a bar lot. */
export interface PrintedHead extends Checkpoint {
  /** Eight words for the eye and the ear. */
  readonly words: string;
  /** Three lines for a QR code: origin, size, link in base64. */
  readonly qr: string;
}

/** What to print of a head. Whoever keeps it can hold the record against it later, without us. */
export const printedHead = ({ origin, seq, link }: Checkpoint): PrintedHead => ({
  origin,
  seq,
  link,
  words: wordsOf(link),
  qr: checkpointText({ origin, seq, link }),
});
