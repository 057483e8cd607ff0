/** Reads a table by the letter of RFC 4180: records end with CR LF, a cell may be quoted, a doubled quote is one. Throws on anything else. */
export const readCsv = (text: string): readonly (readonly string[])[] => {
  const rows: string[][] = [];
  let row: string[] = [];
  for (let at = 0; at < text.length;) {
    const found = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n)/y;
    found.lastIndex = at;
    const cell = found.exec(text);
    if (cell === null) throw new Error(`no cell at ${at}: ${JSON.stringify(text.slice(at, at + 20))}`);
    row.push(cell[1]?.replaceAll('""', '"') ?? cell[2] ?? '');
    at = found.lastIndex;
    if (cell[3] === '\r\n') {
      rows.push(row);
      row = [];
    }
  }
  if (row.length > 0) throw new Error('the last record does not end');
  return rows;
};
