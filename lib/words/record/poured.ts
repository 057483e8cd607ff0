import { numberText } from '#lib/units/format';
import { capital } from '../words';
import { potMessages } from '../pot-messages';
import { pouredWords } from '../review/messages-poured';
import { correctedWords } from '../review/corrected';
import { pouredRows } from '../review/poured-rows';
import type { RecordFacts } from './facts';
import { recordWords } from './messages';
import type { TableBlock } from './sheet';
import { figures, row, table, words } from './table';

/** What the batch came to, each result with what it may be off by and the formula's limits. */
export const pouredTable = ({ review: { poured, lines }, display }: RecordFacts): TableBlock => {
  const { locale } = display;
  const { title, heads } = recordWords.poured;
  const columns = [
    words(heads.what, 34),
    figures(heads.value, 16),
    figures(heads.half, 10),
    figures(heads.limits, 20),
    words(heads.verdict, 18),
  ];
  if (poured.kind !== 'figures') return table(title, columns, [], { note: `${capital(potMessages.unworked[poured.kind])}.` });
  const rows = pouredRows(poured.result, lines).map(({ name, unit, digits, per, value, figure, limit }) => {
    const show = (of: number): string => numberText(of / per, locale, digits);
    return row([
      [name],
      [`${show(value)} ${unit}`],
      [show((figure.high - figure.low) / 2)],
      [limit === null ? '' : pouredWords.bandOf(limit.low, limit.high, show)],
      [limit === null ? '' : pouredWords.verdict[limit.verdict]],
    ]);
  });
  const note = poured.kept ? pouredWords.kept(poured.result.method) : pouredWords.now;
  const right = correctedWords(poured, display);
  const again = right === null ? [] : [right.now, ...(right.heavy === null ? [] : [right.heavy])];
  return table(title, columns, rows, { note: [note, pouredWords.note, ...again].join(' ') });
};
