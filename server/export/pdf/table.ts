import type { Row, TableBlock } from '#lib/words/record/sheet';
import { HAIR, INK, SIZES } from './look';
import type { Pen, Set } from './pen';
import type { Page, Struct } from './page';

const GAP = 6;
const PAD = 2.6;

/** From where to where a table goes. */
export interface Across {
  readonly from: number;
  readonly to: number;
}

const wholeOf = ({ pen }: Page): Across => ({ from: pen.left, to: pen.right });

/** What a table takes at the least, so that two beside one another are not torn. */
export const leastHeight = ({ rows, total, note }: TableBlock): number =>
  (rows.length + (total === null ? 0 : 1) + 1) * (SIZES.table * 1.3 + 2 * PAD) + (note === '' ? 0 : SIZES.fine * 2.6) + 40;

interface Placed {
  readonly x: number;
  readonly width: number;
}

/** A table on hairlines, its head again on every page it runs over. A row is never torn. */
export const drawTable = (page: Page, section: Struct, block: TableBlock, across: Across = wholeOf(page)): void => {
  const { pen } = page;
  const places = placesOf(block, across);
  const table = page.struct('Table', section);
  const heads = block.columns.map(({ name, unit }, at) => pen.set([unit === '' ? name : `${name} ${unit}`], wide(places, at), SIZES.fine));
  const headHeight = Math.max(...heads.map(({ height }) => height)) + PAD;
  const drawHead = (again: boolean): void => {
    const bottom = page.y + headHeight - PAD;
    const draw = (at: number): void => {
      const [head, place, column] = [heads[at], places[at], block.columns[at]];
      if (head !== undefined && place !== undefined) pen.draw(head, place.x, bottom - head.height, place.width, column?.figures ?? false);
    };
    if (again) pen.mark(() => heads.forEach((_, at) => draw(at)));
    else {
      const row = page.struct('TR', table);
      heads.forEach((_, at) => page.put('TH', row, () => draw(at), { Scope: 'Column' }));
    }
    page.y += headHeight;
    pen.rule(across.from, across.to, page.y, 0.75, INK);
  };
  const drawRow = (row: Row, last: boolean): void => {
    const sets = row.cells.map((cell, at) => pen.set(cell, wide(places, at), SIZES.table));
    const height = Math.max(...sets.map((set) => set.height)) + 2 * PAD;
    if (page.room(height)) drawHead(true);
    const struct = page.struct('TR', table);
    sets.forEach((set, at) => {
      const place = places[at];
      const name = block.columns[at];
      if (place === undefined || name === undefined) return;
      const draw = (): void => pen.draw(set, place.x, page.y + PAD, place.width, name.figures);
      if (at === headColumn(block)) page.put('TH', struct, draw, { Scope: 'Row' });
      else page.put('TD', struct, draw);
    });
    if (row.crossed) crossOut(pen, block, sets, places, page.y + PAD);
    if (block.bars !== null) drawBar(pen, row.bar, block.bars, places[barColumn(block)], page.y, height);
    page.y += height;
    pen.rule(across.from, across.to, page.y, last ? 0.75 : 0.5, last ? INK : HAIR);
  };
  if (block.rows.length > 0) {
    page.room(headHeight + 3 * (SIZES.table + 2 * PAD));
    drawHead(false);
  }
  block.rows.forEach((row, at) => drawRow(row, block.total !== null && at === block.rows.length - 1));
  if (block.total !== null) drawRow({ ...block.total, bar: null }, false);
};

/** The column that names its row: the first one of words. */
const headColumn = ({ columns }: TableBlock): number => columns.findIndex(({ figures, name }) => !figures && name !== '');

/** Bars stand in the column no cell writes into. */
const barColumn = ({ rows }: TableBlock): number => rows[0]?.cells.findIndex((cell) => cell.length === 0) ?? -1;

const placesOf = ({ columns }: TableBlock, { from, to }: Across): readonly Placed[] => {
  const parts = columns.reduce((sum, { part }) => sum + part, 0);
  const whole = to - from + GAP;
  let x = from;
  return columns.map(({ part }) => {
    const width = (whole * part) / parts;
    const place = { x, width: width - GAP };
    x += width;
    return place;
  });
};

const wide = (places: readonly Placed[], at: number): number => places[at]?.width ?? 0;

/** Figures of what was crossed out are drawn through; why and by whom stays as it is. */
const crossOut = (pen: Pen, { columns }: TableBlock, sets: readonly Set[], places: readonly Placed[], y: number): void =>
  sets.forEach((set, at) => {
    const place = places[at];
    if (place === undefined || columns[at]?.figures !== true || set.lines.every((line) => line.length === 0)) return;
    pen.rule(place.x + place.width - set.width, place.x + place.width, y + set.size * 0.62, 0.6, INK);
  });

/** One difference on the scale of all: the dotted edges are the tolerance, a tip says that it left them. */
const drawBar = (pen: Pen, away: number | null, most: number, place: Placed | undefined, y: number, height: number): void => {
  if (place === undefined) return;
  const middle = place.x + place.width / 2;
  const unit = place.width / 2 / most;
  const at = (tolerances: number): number => middle + Math.max(-most, Math.min(most, tolerances)) * unit;
  pen.mark((doc) => {
    doc.lineWidth(0.5).strokeColor(HAIR).dash(1, { space: 1.5 });
    for (const edge of [-1, 1])
      doc
        .moveTo(at(edge), y)
        .lineTo(at(edge), y + height)
        .stroke();
    doc
      .undash()
      .lineWidth(0.75)
      .strokeColor(INK)
      .moveTo(middle, y)
      .lineTo(middle, y + height)
      .stroke();
    if (away === null) return;
    const [from, to] = [Math.min(middle, at(away)), Math.max(middle, at(away))];
    doc.rect(from, y + height / 2 - 2, Math.max(0.6, to - from), 4).fill(INK);
    if (Math.abs(away) <= 1) return;
    const reach = away > 0 ? 3 : -3;
    doc
      .moveTo(at(away), y + height / 2 - 2)
      .lineTo(at(away) + reach, y + height / 2)
      .lineTo(at(away), y + height / 2 + 2)
      .fill(INK);
  });
};
