import { create as createQr } from 'qrcode';
import { recordWords } from '#lib/words/record/messages';
import type { RecordSheet } from '#lib/words/record/sheet';
import { INK, SIZES } from './look';
import type { Page } from './page';
import type { Pen } from './pen';
import { say } from './say';

const CODE = 58;

/** The hash of the newest line, for the eye and for a reader of codes, and what it proves. Never apart from one another. */
export const drawEnd = (page: Page, { foot }: RecordSheet): void => {
  const { pen } = page;
  const width = pen.right - pen.left - (foot.code === '' ? 0 : CODE + 14);
  const height = Math.max(CODE, 14 + foot.sentences.length * 20) + 12;
  page.room(height + 10);
  page.y = Math.max(page.y + 10, pen.bottom - height);
  pen.rule(pen.left, pen.right, page.y, 1.5, INK);
  page.y += 6;
  const section = page.struct('Sect');
  const top = page.y;
  say(page, section, [foot.hash], { size: SIZES.table, width, gap: 1 });
  if (foot.spoken !== '') say(page, section, [{ voice: 'measured', text: foot.spoken }], { width, gap: 3 });
  for (const sentence of foot.sentences) say(page, section, [sentence], { size: SIZES.fine, width, gap: 1 });
  if (foot.code !== '') drawCode(page, foot.code, pen.right - CODE, top);
};

const drawCode = (page: Page, text: string, x: number, y: number): void => {
  const { modules } = createQr(text, { errorCorrectionLevel: 'M' });
  const unit = CODE / modules.size;
  page.pen.mark((doc) => {
    for (let row = 0; row < modules.size; row += 1)
      for (let column = 0; column < modules.size; column += 1)
        if (modules.get(row, column)) doc.rect(x + column * unit, y + row * unit, unit, unit);
    doc.fill(INK);
  });
};

export const numberPages = (pen: Pen, { title, mark }: RecordSheet): void => {
  const { start, count } = pen.doc.bufferedPageRange();
  for (let n = 0; n < count; n += 1) {
    pen.doc.switchToPage(start + n);
    const [left, right] = [
      pen.set([`Potwatch, ${title.toLowerCase()} ${mark}`], 300, SIZES.fine),
      pen.set([recordWords.foot.page(n + 1, count)], 200, SIZES.fine),
    ];
    pen.mark(() => {
      pen.draw(left, pen.left, pen.bottom + 12, 300);
      pen.draw(right, pen.right - 200, pen.bottom + 12, 200, true);
    });
  }
};
