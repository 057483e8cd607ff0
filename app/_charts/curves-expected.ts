import UPlot from 'uplot';
import type { ForecastLane, VesselLane } from '#lib/protocol/forecast';

/** What is expected, with the moments of the server's clock put on the axis of the page. */
export interface Expected {
  readonly lane: ForecastLane;
  /** Seconds to add to a second of the server's clock. */
  readonly shift: number;
}

export interface ExpectedInk {
  readonly lye: string;
  readonly oils: string;
  readonly plain: string;
  /** Size of the text, CSS pixels. */
  readonly text: number;
}

/** How far ahead the chart reaches, s: past the meeting, else half an hour. */
const LEAST_AHEAD = 600;
const MOST_AHEAD = 3_600;
const USUAL_AHEAD = 1_800;

/** Seconds of the page's axis up to which there is something to draw; `null`: nothing is expected. */
export const endOf = ({ lane, shift }: Expected): number | null => {
  const spans = vesselsOf(lane).filter(({ outlook }) => outlook.kind === 'forecast');
  if (spans.length === 0) return null;
  const { meeting } = lane;
  const high = meeting?.kind === 'meeting' && meeting.when.kind === 'in' ? meeting.when.high * 1.2 : USUAL_AHEAD;
  return lane.at / 1000 + shift + Math.min(MOST_AHEAD, Math.max(LEAST_AHEAD, high));
};

/** The lowest and highest degrees expected up to `end`; `null`: nothing is. */
export const reachOf = ({ lane, shift }: Expected, end: number): { readonly low: number; readonly high: number } | null => {
  const rows = vesselsOf(lane).flatMap((vessel) => rowsOf(vessel, end - shift - lane.at / 1000));
  if (rows.length === 0) return null;
  return { low: Math.min(...rows.map(([, low]) => low)) / 1000, high: Math.max(...rows.map(([, , , high]) => high)) / 1000 };
};

const vesselsOf = ({ lye, oils }: ForecastLane): readonly VesselLane[] => [lye, oils];

/** Up to the first row past the end, so that the line runs out of the chart; never past what is sure enough to be told. */
const rowsOf = ({ outlook }: VesselLane, after: number) => {
  if (outlook.kind !== 'forecast') return [];
  const told = outlook.ahead.filter(([at]) => at <= outlook.until);
  const past = told.findIndex(([at]) => at >= after);
  return past < 0 ? told : told.slice(0, past + 1);
};

/** Each forecast as a dashed line in its 95 % interval, the drops it rests on, and the span of the meeting in its window. */
export const drawExpected = (
  chart: UPlot,
  { lane, shift }: Expected,
  window: { readonly low: number; readonly high: number },
  ink: ExpectedInk,
): void => {
  const { ctx, bbox } = chart;
  const size = UPlot.pxRatio * ink.text;
  const from = lane.at / 1000 + shift;
  const [x, y] = [
    (seconds: number): number => chart.valToPos(seconds, 'x', true),
    (milli: number): number => chart.valToPos(milli / 1000, 'y', true),
  ];
  ctx.save();
  ctx.beginPath();
  ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
  ctx.clip();
  for (const name of ['lye', 'oils'] as const) {
    const rows = rowsOf(lane[name], MOST_AHEAD);
    const [low, middle, high] = ([1, 2, 3] as const).map((of) => rows.map((row): Point => [x(from + row[0]), y(row[of])]));
    if (low === undefined || middle === undefined || high === undefined || rows.length < 2) continue;
    ctx.fillStyle = ctx.strokeStyle = ink[name];
    ctx.globalAlpha = 0.25;
    trace(ctx, [...high, ...low.toReversed()]);
    ctx.fill();
    ctx.globalAlpha = 1;
    ctx.lineWidth = size * 0.14;
    ctx.setLineDash([size * 0.5, size * 0.35]);
    trace(ctx, middle);
    ctx.stroke();
  }
  ctx.setLineDash([]);
  drawDrops(ctx, { lane, shift }, { x, top: bbox.top, height: bbox.height, size }, ink);
  const { meeting } = lane;
  if (meeting?.kind === 'meeting' && meeting.when.kind === 'in') {
    const [left, right] = [x(from + meeting.when.low), x(from + meeting.when.high)];
    ctx.strokeStyle = ink.plain;
    ctx.lineWidth = size * 0.15;
    ctx.strokeRect(left, y(window.high), Math.max(size * 0.3, right - left), y(window.low) - y(window.high));
  }
  ctx.restore();
};

type Point = readonly [x: number, y: number];

const trace = (ctx: CanvasRenderingContext2D, points: readonly Point[]): void => {
  ctx.beginPath();
  for (const [at, [x, y]] of points.entries()) {
    if (at === 0) ctx.moveTo(x, y);
    else ctx.lineTo(x, y);
  }
};

/** Where a new drop began: a dotted line with a foot in the vessel's own colour and shape. */
const drawDrops = (
  ctx: CanvasRenderingContext2D,
  { lane, shift }: Expected,
  place: { readonly x: (seconds: number) => number; readonly top: number; readonly height: number; readonly size: number },
  ink: ExpectedInk,
): void => {
  const { x, top, height, size } = place;
  for (const name of ['lye', 'oils'] as const)
    for (const { since } of lane[name].marks) {
      const at = x(since + shift);
      ctx.strokeStyle = ctx.fillStyle = ink[name];
      ctx.lineWidth = size * 0.08;
      ctx.setLineDash([size * 0.1, size * 0.3]);
      trace(ctx, [
        [at, top],
        [at, top + height],
      ]);
      ctx.stroke();
      ctx.setLineDash([]);
      trace(ctx, [
        [at - size * 0.4, top],
        [at + size * 0.4, top],
        [at, top + size * 0.7],
      ]);
      ctx.fill();
    }
};
