import UPlot from 'uplot';

export interface CurveEnd {
  readonly value: number | null | undefined;
  readonly other: number | null | undefined;
  readonly word: string;
  readonly colour: string;
  readonly text: number;
}

/** The newest value of a curve as a dot with its name: direct labels, no legend. Names of near curves make room for each other. */
export const drawEnd = (chart: UPlot, { value, other, word, colour, text }: CurveEnd): void => {
  const at = chart.data[0].at(-1);
  if (at === undefined || value == null) return;
  const { ctx } = chart;
  const size = UPlot.pxRatio * text;
  const [x, y] = [chart.valToPos(at, 'x', true), chart.valToPos(value, 'y', true)];
  const apart = other == null ? Infinity : chart.valToPos(other, 'y', true) - y;
  const aside = Math.abs(apart) > size * 1.1 ? 0 : (apart >= 0 ? -1 : 1) * (size * 1.1 - Math.abs(apart)) * 0.5;
  // The chart remembers which font it set last: whatever is changed here is put back.
  ctx.save();
  ctx.fillStyle = colour;
  ctx.beginPath();
  ctx.arc(x, y, size * 0.35, 0, 2 * Math.PI);
  ctx.fill();
  ctx.font = `700 ${size * 1.1}px ${getComputedStyle(chart.root.parentElement ?? chart.root).fontFamily}`;
  ctx.textAlign = 'right';
  ctx.textBaseline = 'middle';
  ctx.fillText(word, x - size * 0.7, y + aside);
  ctx.restore();
};
