/** The world moves in whole steps of this many milliseconds, so that how often it is asked changes nothing. */
export const STEP_MS = 10;
