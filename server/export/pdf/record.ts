import { plain } from '#lib/words/record/sheet';
import type { Block, RecordSheet, TableBlock, ToldEvent } from '#lib/words/record/sheet';
import type { Sentence } from '#lib/words/sentence';
import { drawEnd, numberPages } from './end';
import { DIM, INK, SIZES } from './look';
import { Page } from './page';
import type { Struct } from './page';
import { Pen } from './pen';
import type { Paper } from './pen';
import { say } from './say';
import { drawTable, leastHeight } from './table';
import type { Across } from './table';

/** The record as a tagged PDF with its fonts in it. `made`: what stands in the file as its date. */
export const recordPdf = (sheet: RecordSheet, paper: Paper, made: Date): Promise<Uint8Array> => {
  const pen = new Pen(paper, {
    title: `${sheet.title} ${sheet.mark}`,
    subject: plain(sheet.facts[0]?.said ?? []),
    made,
  });
  const page = new Page(pen);
  drawHead(page, sheet);
  for (const block of sheet.blocks) drawBlock(page, block);
  drawEnd(page, sheet);
  page.end();
  numberPages(pen, sheet);
  return bytesOf(pen);
};

const bytesOf = ({ doc }: Pen): Promise<Uint8Array> =>
  new Promise((resolve, reject) => {
    const parts: Buffer[] = [];
    doc.on('data', (part: Buffer) => parts.push(part));
    doc.on('end', () => resolve(new Uint8Array(Buffer.concat(parts))));
    doc.on('error', reject);
    doc.end();
  });

const drawHead = (page: Page, sheet: RecordSheet): void => {
  const { pen } = page;
  pen.doc.fillColor(INK);
  const section = page.struct('Sect');
  const title = pen.set([sheet.title], 300, SIZES.title, 'light');
  const mark = pen.set([sheet.mark], 200, SIZES.title, 'light');
  page.put('H1', section, () => {
    pen.draw(title, pen.left, page.y, 300);
    pen.draw(mark, pen.right - 200, page.y, 200, true);
  });
  page.y += title.height + 2;
  pen.rule(pen.left, pen.right, page.y, 1.5, INK);
  page.y += 7;
  if (sheet.warning !== null) say(page, section, [{ voice: 'measured', text: sheet.warning }], { gap: 4 });
  drawFacts(page, section, sheet.facts);
};

/** Names and what is said of them, in two columns read one after the other. */
const drawFacts = (page: Page, section: Struct, facts: RecordSheet['facts']): void => {
  const { pen } = page;
  const half = Math.ceil(facts.length / 2);
  const [from, width, name] = [page.y, (pen.right - pen.left) / 2 - 8, 52];
  let lowest = from;
  for (const [side, some] of [facts.slice(0, half), facts.slice(half)].entries()) {
    const x = pen.left + side * (width + 16);
    page.y = from;
    for (const fact of some) {
      const [label, said] = [pen.set([fact.name], name, SIZES.table), pen.set(fact.said, width - name, SIZES.table)];
      page.put('P', section, () => {
        pen.doc.fillColor(DIM);
        pen.draw(label, x, page.y, name);
        pen.doc.fillColor(INK);
        pen.draw(said, x + name, page.y, width - name);
      });
      page.y += said.height + 1.5;
    }
    lowest = Math.max(lowest, page.y);
  }
  page.y = lowest;
};

const drawBlock = (page: Page, block: Block): void => {
  page.y += 9;
  // A title never stands alone at the foot of a page.
  page.room(block.kind === 'table' ? leastHeight({ ...block, rows: block.rows.slice(0, 3), total: null }) : 60);
  if (block.kind === 'pair') return drawPair(page, block.tables);
  const section = page.struct('Sect');
  if (block.kind === 'table') return drawTitled(page, section, block);
  say(page, section, [block.title], { size: SIZES.head, tag: 'H2', gap: 2 });
  if (block.kind === 'told') {
    say(page, section, [block.note], { size: SIZES.fine, gap: 3 });
    for (const event of block.events) drawEvent(page, section, event);
  } else for (const names of block.lines) drawByHand(page, section, names);
};

const drawTitled = (page: Page, section: Struct, block: TableBlock, across: Across = { from: page.pen.left, to: page.pen.right }): void => {
  const place = { x: across.from, width: across.to - across.from };
  say(page, section, [block.title], { ...place, size: SIZES.head, tag: 'H2', gap: 2 });
  if (block.note !== '') say(page, section, [block.note], { ...place, size: SIZES.fine, gap: 1 });
  drawTable(page, section, block, across);
};

const BETWEEN = 22;

const drawPair = (page: Page, tables: readonly [TableBlock, TableBlock]): void => {
  const { left, right } = page.pen;
  page.room(Math.max(...tables.map(leastHeight)));
  const [from, width] = [page.y, (right - left - BETWEEN) / 2];
  const ends = tables.map((table, at) => {
    page.y = from;
    const x = left + at * (width + BETWEEN);
    drawTitled(page, page.struct('Sect'), table, { from: x, to: x + width });
    return page.y;
  });
  page.y = Math.max(...ends);
};

const AT = 30;
const LETTER = 14;

const drawEvent = (page: Page, section: Struct, { letter, at, by, head, rest }: ToldEvent): void => {
  const { pen } = page;
  const x = pen.left + AT + LETTER;
  const strong: Sentence =
    letter === null ? head : head.map((piece) => ({ voice: 'measured' as const, text: typeof piece === 'string' ? piece : piece.text }));
  const set = pen.set(
    [...strong, ...(rest.length === 0 ? [] : [' ', ...rest]), ...(by === '' ? [] : [` (${by})`])],
    pen.right - x,
    SIZES.table,
  );
  page.room(set.height);
  const [when, which] = [
    pen.set([{ voice: 'measured', text: at }], AT, SIZES.table),
    pen.set([letter ?? ''], LETTER, SIZES.table, 'strong'),
  ];
  page.put('P', section, () => {
    pen.draw(when, pen.left, page.y, AT);
    pen.draw(which, pen.left + AT, page.y, LETTER);
    pen.draw(set, x, page.y, pen.right - x);
  });
  page.y += set.height + 1.5;
};

const drawByHand = (page: Page, section: Struct, names: readonly string[]): void => {
  const { pen } = page;
  page.room(34);
  page.y += 22;
  const width = (pen.right - pen.left - 14 * (names.length - 1)) / names.length;
  names.forEach((name, at) => {
    const x = pen.left + at * (width + 14);
    const set = pen.set([name], width, SIZES.fine);
    pen.rule(x, x + width, page.y, 0.5, INK);
    page.put('P', section, () => pen.draw(set, x, page.y + 1.5, width));
  });
  page.y += 11;
};
