/** Ink on white. Sizes in points; those of the printed page in the browser, turned from its pixels. */
export const INK = '#111111';
export const DIM = '#444444';
export const HAIR = '#bbbbbb';
export const SIZES = { fine: 7.6, table: 8.6, text: 8.8, head: 9.2, title: 22 } as const;
