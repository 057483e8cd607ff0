import drawing from './drawing.module.css';
import form from './form.module.css';
import paper from './paper.module.css';
import table from './table.module.css';

type Sheet = Readonly<Record<string, string>>;

/** Class names by the names they have in their sheets, several with spaces between. tests/unit/app/tokens.test.ts holds that each is there. */
const classesOf =
  (...sheets: readonly Sheet[]) =>
  (names: string): string =>
    names
      .split(' ')
      .map((name) => sheets.find((sheet) => sheet[name] !== undefined)?.[name] ?? '')
      .join(' ');

/** The shared sheets of the pages on paper (frame and type, tables and figures, drawings, forms) with a room's own before them. */
export const onPaper = (...own: readonly Sheet[]) => classesOf(...own, paper, table, drawing, form);
export const on = onPaper();
