/** Neutral names of the frame shapes a scale may speak. No maker is named: many speak the same shape. */
export const SCALE_SHAPES = ['header-comma', 'header-mode-comma', 'echo-marker', 'letter-reply', 'stx-status', 'right-query'] as const;
export type ScaleShape = (typeof SCALE_SHAPES)[number];

/** Our own documented probe line. */
export const PROBE_SHAPES = ['probe-line'] as const;
export type ProbeShape = (typeof PROBE_SHAPES)[number];

export type Shape = ScaleShape | ProbeShape;
