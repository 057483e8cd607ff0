import type { ScaleShape } from '#lib/measure/shape';
import type { MassUnit } from '#lib/units/mass';
import { echoMarker } from './echo-marker';
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

const ANY: readonly MassUnit[] = ['g', 'kg', 'oz', 'lb', 'mg'];
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
