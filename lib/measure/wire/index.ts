export type { Identifier, Wire, WireSink } from './types';
export { REQUEST } from './request';
export { createWire } from './wire';
export { createIdentifier, FRAMES_TO_IDENTIFY } from './identifier';
export { FRAME_CAP } from './line-framer';
