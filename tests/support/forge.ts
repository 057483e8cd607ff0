import type Database from 'better-sqlite3';
import { EMPTY, leafOf, linkOf } from '#lib/record/seal';

/** Changes the lines of a journal from one on and makes every leaf and link anew, so that only a head kept apart can tell. */
export const relink = (db: Database.Database, journal: 'bench' | 'workshop', from: number, change: (text: string) => string): void => {
  const lines = db.prepare(`select seq, text, link from ${journal}_lines order by seq`).all() as {
    seq: number;
    text: string;
    link: string;
  }[];
  const put = db.prepare(`update ${journal}_lines set text = ?, leaf = ?, link = ? where seq = ?`);
  let link = EMPTY.link;
  let changed = false;
  for (const line of lines) {
    const text = line.seq < from ? line.text : change(line.text);
    changed ||= text !== line.text;
    const leaf = leafOf(text);
    link = linkOf(link, leaf);
    put.run(text, leaf, link, line.seq);
  }
  if (!changed) throw new Error('nothing was changed');
};
