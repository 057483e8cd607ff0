import type { InstrumentId } from '#lib/units/id';
import { capital } from '../words';
import { massHead, showIn, stepOf } from '../quantities';
import { dateText, clockText } from '../times';
import type { RecordFacts } from './facts';
import { recordWords } from './messages';
import type { TableBlock } from './sheet';
import { figures, row, table, words } from './table';

/** The letter a scale has on this record, in the order in which scales were first used. */
export const scaleLetters = ({ review: { lines, uncheckedScales, checks } }: RecordFacts): ReadonlyMap<InstrumentId, string> => {
  const used = lines.flatMap(({ contributions }) => contributions.flatMap(({ instrument }) => instrument ?? []));
  const all = new Set<InstrumentId>([...used, ...checks.map(({ instrument }) => instrument), ...uncheckedScales]);
  return new Map([...all].map((id, at) => [id, String.fromCodePoint(65 + at)] as const));
};

/** Every scale of the batch with its last check by a known mass: in the batch, else before it, else the plain word that there was none. */
export const scaleTable = (facts: RecordFacts): TableBlock => {
  const { review, display, instrumentName, checkedBefore } = facts;
  const { title, heads, never, unknown } = recordWords.instruments;
  const show = showIn(display);
  const offsetMin = review.story[0]?.offsetMin ?? 0;
  const rows = [...scaleLetters(facts)].map(([id, letter]) => {
    const taken = review.lines.flatMap(({ contributions }) => contributions.filter(({ instrument }) => instrument === id));
    const steps = taken.flatMap(({ stated }) => stepOf(stated) ?? []);
    const step = steps.length === 0 ? null : Math.min(...steps);
    const own = review.checks.findLast(({ instrument }) => instrument === id);
    const check = own === undefined ? checkedBefore[id] : { ...own, offsetMin };
    const zone = { offsetMin: check?.offsetMin ?? offsetMin, locale: display.locale };
    const said = taken.some(({ checked }) => checked) ? unknown : never;
    return row([
      [letter],
      [capital(instrumentName(id))],
      [String(taken.length)],
      [check === undefined ? said : `${dateText(check.wall, zone)}, ${clockText(check.wall, zone)}`],
      [check === undefined ? '' : show.mass(check.nominal, step)],
      [check === undefined ? '' : show.mass(check.difference, step, 'both')],
    ]);
  });
  const unit = massHead(display);
  const columns = [
    words(heads.letter, 2),
    words(heads.name, 16),
    figures(heads.weights, 7),
    words(heads.checked, 26),
    figures(heads.known, 12, unit === '' ? '' : ' '),
    figures(heads.difference, 12, unit === '' ? '' : ' '),
  ];
  return table(title, columns, rows);
};
