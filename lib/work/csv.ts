/**
 * One cell of RFC 4180. Text that a spreadsheet would take for a formula (it begins with = + - @, a tab or a line break) gets an apostrophe
 * before it; a plain decimal number does not, since it is one.
 */
const cell = (text: string): string => {
  const safe = /^[=+\-@\t\r\n]/.test(text) && !/^-?\d+(?:\.\d+)?$/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
};

/** One record of RFC 4180 with its line end. */
export const csvRow = (cells: readonly string[]): string => `${cells.map(cell).join(',')}\r\n`;
