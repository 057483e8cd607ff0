import { describe, expect, it } from 'vitest';
import { mg } from '#lib/units/mass';
import { A4, codeRuns, labelSvg, LETTER, placesOn, sheetSvg } from '#lib/work/label/draw';
import { layLabel, type LabelLayout, type LabelText } from '#lib/work/label/layout';
import { linesIn, widthIn } from '#lib/work/label/lines-in';

const text = (more: Partial<LabelText> = {}): LabelText => ({
  title: 'Meadow <soap>',
  purpose: 'Soap for hands & body',
  net: { metric: '120 g', customary: 'Net Wt 4.23 oz', mass: mg(120_000), estimated: true },
  openedMonths: 12,
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
