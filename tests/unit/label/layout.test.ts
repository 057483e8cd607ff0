import PDFDocument from 'pdfkit';
import { describe, expect, it } from 'vitest';
import { mg } from '#lib/units/mass';
import { labelText } from '#lib/words/label/label-text';
import { A4, codeRuns, labelSvg, LETTER, placesOn, sheetSvg } from '#lib/work/label/draw';
import { heightFor, layLabel, type LabelLayout } from '#lib/work/label/layout';
import { NO_LABEL_SETTINGS } from '#lib/work/label/settings';
import type { LabelText } from '#lib/work/label/placed';
import { linesIn, widthIn } from '#lib/work/label/lines-in';
import { undrawn } from '#server/export/label/faces-in';
import { faceOf } from '#server/export/pdf/faces';

const text = (more: Partial<LabelText> = {}): LabelText => ({
  title: 'Meadow <soap>',
  purpose: 'Soap for hands & body',
  net: { metric: '120 g', customary: 'Net Wt 4.23 oz', mass: mg(120_000), estimated: true },
  openedMonths: 12,
  noRoom: 'No room.',
  paragraphs: ['Ingredients: Olea Europaea Fruit Oil, Aqua, Cocos Nucifera Oil, Sodium Hydroxide.', 'For external use.', 'Batch 26-11/1'],
  ...more,
});
const size = { width: 90, height: 60 };
const modules = [
  [true, true, false],
  [false, true, true],
  [true, false, true],
];
const inside = ({ placed, width, height }: LabelLayout): boolean =>
  placed.every((one) =>
    one.kind === 'text'
      ? one.x >= 0 && one.x + widthIn(one.text, one.size) <= width + 1e-9 && one.y <= height && one.y - one.size * 0.66 >= 0
      : one.x >= 0 && one.x + one.side <= width && one.y >= 0 && one.y + one.side <= height,
  );

const LOW = Array.from({ length: 12 }, (_, at) => ({ width: 72, height: 46 + at }));

interface Box {
  readonly what: string;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}
const boxOf = (one: LabelLayout['placed'][number]): Box =>
  one.kind === 'text'
    ? {
        what: one.text,
        left: one.x,
        right: one.x + widthIn(one.text, one.size),
        top: one.y - 0.7 * one.size,
        bottom: one.y + 0.2 * one.size,
      }
    : { what: one.kind, left: one.x, right: one.x + one.side, top: one.y, bottom: one.y + one.side };
const words = (all: string): readonly string[] => all.split(/[ ·]+/).filter((one) => one !== '');
/** Pairs that stand over one another; letters in a sign stand there on purpose. */
const overlaps = ({ placed }: LabelLayout): readonly string[] => {
  const boxes = placed.filter((one) => one.kind !== 'text' || one.part !== 'sign').map(boxOf);
  return boxes.flatMap((a, at) =>
    boxes
      .slice(at + 1)
      .filter((b) => a.left < b.right - 1e-9 && b.left < a.right - 1e-9 && a.top < b.bottom - 1e-9 && b.top < a.bottom - 1e-9)
      .map((b) => `${a.what} and ${b.what}`),
  );
};

const long = (names: number): LabelText =>
  text({
    paragraphs: [`Ingredients: ${Array.from({ length: names }, (_, i) => `Ingredient Number ${i}`).join(', ')}.`, 'Batch 26-11/1'],
  });

describe('a label laid out', () => {
  it('keeps everything on it, in letters as large as there is room for', () => {
    const layout = layLabel(text(), size);
    expect(layout.fits).toBe(true);
    expect(inside(layout)).toBe(true);
    expect(layout.lettersForUs).toBe(true);
  });

  it('says months after opening in an open jar, and nothing where none are said', () => {
    const jar = layLabel(text(), size).placed.filter((one) => one.kind === 'sign' && one.sign === 'opened');
    expect(jar).toHaveLength(1);
    expect(layLabel(text(), size).placed).toContainEqual(expect.objectContaining({ text: '12M' }));
    expect(layLabel(text({ openedMonths: null }), size).placed.some((one) => one.kind === 'sign' && one.sign === 'opened')).toBe(false);
  });

  it('has its net content in figures as high as its rules ask, in the lowest third of its front', () => {
    const net = layLabel(text(), size).placed.find((one) => one.kind === 'text' && one.text === '120 g');
    // 60 × 90 mm is 8.4 square inches: an eighth of an inch is more than the 3 mm of 120 g.
    expect(net).toMatchObject({ strong: true });
    expect((net as { size: number }).size * 0.66).toBeCloseTo(25.4 / 8, 6);
    expect((net as { y: number }).y).toBeGreaterThan(60 * 0.7);
  });

  it('goes down to small letters, says that they are too small for the US, and at last that it does not fit', () => {
    const [few, more, most] = [12, 30, 90].map((names) => layLabel(long(names), size)) as [LabelLayout, LabelLayout, LabelLayout];
    expect([few.fits, few.lettersForUs]).toEqual([true, true]);
    expect([more.fits, more.lettersForUs]).toEqual([true, false]);
    expect(most.fits).toBe(false);
    expect(layLabel(text(), { width: 20, height: 20 }).fits).toBe(false);
  });

  it('leaves nothing cut, over an edge or over another in any shape of label, or draws nothing but that it has no room', () => {
    const kinds = [
      text(),
      text({ openedMonths: null, net: null }),
      long(16),
      text({ title: 'Winter meadow with oats, kaolin and lavender' }),
      // A word wider than the room beside the code, on a label where it would come to stand there.
      text({ paragraphs: [...long(9).paragraphs, 'Batch', 'www.a-very-long-name-of-a-page.example'] }),
    ];
    const shapes = [
      size,
      { width: 40, height: 100 },
      { width: 200, height: 30 },
      { width: 50, height: 70 },
      { width: 24, height: 90 },
      ...LOW,
    ];
    const drawn = shapes.flatMap((shape) => kinds.map((kind) => ({ kind, layout: layLabel(kind, shape) })));
    expect(drawn.filter(({ layout }) => layout.fits).length).toBeGreaterThan(11);
    for (const { kind, layout } of drawn) {
      expect(inside(layout)).toBe(true);
      expect(overlaps(layout)).toEqual([]);
      const told = layout.placed.flatMap((one) => (one.kind === 'text' && one.part !== 'sign' ? [one.text] : [])).join(' ');
      const whole = [kind.title, kind.purpose, ...kind.paragraphs, kind.net?.metric, kind.net?.customary].join(' ');
      const [are, meant] = [words(told), words(layout.fits ? whole : kind.noRoom)];
      // On the narrow ones the longest word is cut: it is wider than they are.
      if (layout.width < 45) expect(are.join('')).toBe(meant.join(''));
      else expect(are).toEqual(meant);
    }
  });

  it('never parts a number from its unit, and sets heavy goods in figures as high as theirs must be', () => {
    const narrow = layLabel(text(), { width: 40, height: 110 }).placed;
    expect(narrow).toContainEqual(expect.objectContaining({ part: 'net', text: '120 g' }));
    expect(narrow).toContainEqual(expect.objectContaining({ part: 'net', text: '4.23 oz' }));
    const net = { metric: '1.25 kg', customary: 'Net Wt 44.11 oz (2 lb 12.11 oz)', mass: mg(1_250_500), estimated: true };
    const high = layLabel(text({ net }), size).placed.flatMap((one) =>
      one.kind === 'text' && one.part === 'net' ? [one.size * 0.66] : [],
    );
    // 76/211/EEC Annex I, 3.1: 6 mm above 1000 g; of ounces the front of 8.4 square inches asks an eighth of an inch.
    expect(high[0]).toBeCloseTo(6, 6);
    expect(high.at(-1)).toBeCloseTo(25.4 / 8, 6);
  });

  it('says where its net content stands higher than the United States ask', () => {
    // 60 mm: the figures of 120 g begin within the lowest 18 mm; of 30 mm high they take more than 9.
    expect([layLabel(text(), size), layLabel(text(), { width: 200, height: 30 })].map(({ fits, netLow }) => [fits, netLow])).toEqual([
      [true, true],
      [true, false],
    ]);
  });

  it('says how high a label would have to be', () => {
    const height = heightFor(long(90), size) ?? 0;
    expect(height).toBeGreaterThan(60);
    expect([height - 1, height].map((one) => layLabel(long(90), { width: 90, height: one }).fits)).toEqual([false, true]);
    expect(heightFor(text(), { width: 20, height: 20 })).toBeNull();
  });

  it('takes no letter for narrower than its face draws it', () => {
    const doc = new PDFDocument({ autoFirstPage: false });
    const letters = Array.from({ length: 0x180 - 0x20 }, (_, at) => String.fromCodePoint(at + 0x20)).filter(
      (one) => undrawn(one).length === 0,
    );
    expect(letters.length).toBeGreaterThan(250);
    for (const weight of ['plain', 'strong'] as const)
      for (const script of ['latin', 'latin-ext'] as const) {
        doc.font(Buffer.from(faceOf(script, weight).bytes), 100);
        const own = letters.filter((letter) => letter.charCodeAt(0) < 0x100 === (script === 'latin'));
        expect(own.filter((letter) => doc.widthOfString(letter) > 100 * widthIn(letter, 1) + 1e-6)).toEqual([]);
      }
    expect(undrawn('Żółć мыло м')).toEqual(['м', 'ы', 'л', 'о']);
  });

  it('breaks lines at words, and a word only where it is wider than a line', () => {
    expect(linesIn('one two three', 3, 1000)).toEqual(['one two three']);
    for (const line of linesIn('Butyrospermum Parkii Butter, Cocos Nucifera Oil', 3, 20)) expect(widthIn(line, 3)).toBeLessThanOrEqual(20);
    expect(linesIn('Donaudampfschiff', 3, 8).join('')).toBe('Donaudampfschiff');
  });
});

describe('a label drawn', () => {
  it('is SVG in millimetres, and nothing of its text is markup', () => {
    const svg = labelSvg(layLabel(text(), size), modules, { title: 'a "b" <c>' });
    expect(svg).toContain('width="90mm" height="60mm"');
    expect(svg).toContain('Meadow &lt;soap&gt;');
    expect(svg).toContain('<title>a &quot;b&quot; &lt;c&gt;</title>');
    expect(svg).not.toContain('<soap>');
  });

  it('leaves out what came along with pasted text and no XML holds', () => {
    const settings = { ...NO_LABEL_SETTINGS, title: 'Meadow\u0002', cautions: ['For\u000Bexternal use.'] };
    const list = { items: [], unnamed: [], leftOut: [] };
    const said = labelText({ settings, formula: 'x', list, mark: '26-1/1', realm: 'real', net: null, poured: 0 });
    const svg = labelSvg(layLabel(said, size), modules, { title: 't' });
    expect(/\p{Cc}/u.test(svg)).toBe(false);
    expect(svg).toContain('For external use.');
  });

  it('stands on a sheet as often as there is room', () => {
    expect(placesOn(A4, size)).toHaveLength(2 * 4);
    expect(placesOn(LETTER, size)).toHaveLength(2 * 4);
    expect(placesOn(A4, { width: 300, height: 60 })).toEqual([]);
    for (const { x, y } of placesOn(A4, size)) {
      expect(x + size.width).toBeLessThanOrEqual(210 - 8 + 1e-9);
      expect(y + size.height).toBeLessThanOrEqual(297 - 8 + 1e-9);
    }
    expect(sheetSvg(layLabel(text(), size), modules, { title: 't' }, A4).match(/<g /g)).toHaveLength(8);
  });

  it('keeps a quiet border of four modules about its code', () => {
    const runs = codeRuns({ kind: 'code', x: 0, y: 0, side: 11 }, modules);
    expect(runs[0]).toEqual({ x: 4, y: 4, width: 2, height: 1 });
    expect(runs.reduce((sum, { width }) => sum + width, 0)).toBe(6);
  });
});
