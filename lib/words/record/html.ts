import type { Block, RecordSheet, Row, TableBlock } from './sheet';
import type { Sentence } from '../sentence';

/** A record as one page of plain HTML: no script, nothing loaded, to be read in any browser in twenty years. */
export const recordHtml = (sheet: RecordSheet): string =>
  [
    '<!doctype html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${safe(sheet.mark)}: ${safe(sheet.title)}</title>`,
    `<style>${STYLE}</style>`,
    '</head>',
    '<body>',
    `<h1>${safe(sheet.title)} ${safe(sheet.mark)}</h1>`,
    ...(sheet.warning === null ? [] : [`<p><strong>${safe(sheet.warning)}</strong></p>`]),
    '<dl>',
    ...sheet.facts.map(({ name, said }) => `<dt>${safe(name)}</dt><dd>${sentence(said)}</dd>`),
    '</dl>',
    ...sheet.blocks.map(block),
    ...endOf(sheet),
    '</body>',
    '</html>',
    '',
  ].join('\n');

const STYLE = [
  'body{max-width:60em;margin:2em auto;padding:0 1em;font:16px/1.5 sans-serif}',
  'table{border-collapse:collapse;margin:1em 0}th,td{padding:.2em .8em .2em 0;border-bottom:1px solid;text-align:left;vertical-align:top}',
  '.n{text-align:right}.m{font-weight:bold}dt{float:left;clear:left;min-width:9em}dd{margin:0 0 0 9em}',
].join('');

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };
const safe = (text: string): string => text.replaceAll(/[&<>"']/g, (sign) => ENTITIES[sign] ?? '');

/** What an instrument measured stands out, as on paper. */
const sentence = (pieces: Sentence): string =>
  pieces.map((piece) => (typeof piece === 'string' ? safe(piece) : span(piece.voice, safe(piece.text)))).join('');
const span = (voice: 'measured' | 'worked', text: string): string => (voice === 'measured' ? `<span class="m">${text}</span>` : text);

const block = (one: Block): string => {
  if (one.kind === 'table') return table(one);
  if (one.kind === 'pair') return one.tables.map(table).join('\n');
  // Lines to write on are for paper.
  if (one.kind === 'by-hand') return '';
  const events = one.events.map(({ letter, at, by, head, rest }) => {
    const who = by === '' ? '' : `, ${safe(by)}`;
    return `<li>${letter === null ? '' : `(${safe(letter)}) `}${safe(at)}${who}: ${sentence(head)} ${sentence(rest)}</li>`;
  });
  return [titled(one.title, one.note), '<ul>', ...events, '</ul>'].join('\n');
};

const titled = (title: string, note: string): string => `<h2>${safe(title)}</h2>${note === '' ? '' : `<p>${safe(note)}</p>`}`;

const table = ({ title, note, columns, rows, total }: TableBlock): string => {
  const figures = columns.map((column) => column.figures);
  const heads = columns.map(
    ({ name, unit }, at) => `<th scope="col"${classOf(figures[at])}>${safe(name)}${unit.trim() === '' ? '' : ` (${safe(unit)})`}</th>`,
  );
  const all = [...rows, ...(total === null ? [] : [total])].map((row) => rowOf(row, figures));
  return [titled(title, note), '<table>', `<tr>${heads.join('')}</tr>`, ...all, '</table>'].join('\n');
};

const classOf = (figure: boolean | undefined): string => (figure === true ? ' class="n"' : '');

const rowOf = ({ cells, crossed }: Row, figures: readonly boolean[]): string => {
  const written = cells.map((cell, at) => {
    const text = crossed ? `<s>${sentence(cell)}</s>` : sentence(cell);
    return `<td${classOf(figures[at])}>${text}</td>`;
  });
  return `<tr>${written.join('')}</tr>`;
};

const endOf = ({ foot }: RecordSheet): readonly string[] => [
  '<hr>',
  `<p class="m">${safe(foot.hash)}</p>`,
  ...(foot.spoken === '' ? [] : [`<p>${safe(foot.spoken)}</p>`]),
  ...foot.sentences.map((text) => `<p>${safe(text)}</p>`),
];
