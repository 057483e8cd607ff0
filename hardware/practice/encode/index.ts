import type { ScaleShape } from '#lib/measure/shape';
import type { MassUnit } from '#lib/units/mass';
import { echoMarker } from './echo-marker';
import { OVER_BY } from '../world/scale-model';
import { digits, figure, stepIn } from './frame';
import type { DisplayStep, ScaleFrame } from './frame';
import { headerComma } from './header-comma';
import { headerModeComma } from './header-mode-comma';
import { letterReply } from './letter-reply';
import { rightQuery } from './right-query';
import { stxStatus } from './stx-status';

export type { DisplayStep, ScaleFrame } from './frame';
export { ascii, figure, stepIn } from './frame';

/** One encoder a shape, written from the published layouts and never from our decoders. */
export const ENCODE: Readonly<Record<ScaleShape, (frame: ScaleFrame, step: DisplayStep) => Uint8Array>> = {
  'header-comma': headerComma,
  'header-mode-comma': headerModeComma,
  'echo-marker': (frame) => echoMarker(frame),
  'letter-reply': letterReply,
  'stx-status': (frame, step) => stxStatus(frame, step.by),
  'right-query': rightQuery,
};

const ANY: readonly MassUnit[] = ['g', 'kg', 'oz', 'lb'];
const BIG: readonly MassUnit[] = ['kg', 'lb'];

/** Units a shape's layout can state; the first is what such a scale starts in. */
export const UNITS: Readonly<Record<ScaleShape, readonly MassUnit[]>> = {
  'header-comma': ANY,
  'header-mode-comma': BIG,
  'echo-marker': ANY,
  'letter-reply': ANY,
  'stx-status': BIG,
  'right-query': ANY,
};

/** Characters a figure without its sign may take, point included; `stx-status` sends digits only, and decimals by a code up to 5. */
const WIDTH: Readonly<Record<ScaleShape, number>> = {
  'header-comma': 8,
  'header-mode-comma': 7,
  'echo-marker': 9,
  'letter-reply': 9,
  'stx-status': 6,
  'right-query': 9,
};

/** Whether a shape can show this capacity in this unit at this division (mg). */
export const holds = (shape: ScaleShape, capacity: number, division: number, unit: MassUnit): boolean => {
  const step = stepIn(unit, division);
  const widest = digits(figure(capacity + OVER_BY * division, unit, step));
  if (shape !== 'stx-status') return UNITS[shape].includes(unit) && widest.length <= WIDTH[shape];
  return UNITS[shape].includes(unit) && widest.replace('.', '').length <= WIDTH[shape] && step.decimals <= 5;
};
