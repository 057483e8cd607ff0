import type { Sentence } from '../sentence';
import type { Column, Row, TableBlock } from './sheet';

/** A column of words, or of figures at the right; `part` of the table's width. */
export const words = (name: string, part: number, unit = ''): Column => ({ name, unit, part, figures: false });
export const figures = (name: string, part: number, unit = ''): Column => ({ name, unit, part, figures: true });

export const row = (cells: readonly Sentence[], bar: number | null = null, crossed = false): Row => ({ cells, bar, crossed });

/** A table without bars, note or total unless they are given. */
export const table = (
  title: string,
  columns: readonly Column[],
  rows: readonly Row[],
  more: Partial<Pick<TableBlock, 'note' | 'total' | 'bars'>> = {},
): TableBlock => ({ kind: 'table', title, columns, rows, note: '', total: null, bars: null, ...more });
