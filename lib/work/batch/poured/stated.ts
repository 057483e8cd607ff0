/** What a person stated without a scale: taken out by a measure, lost by eye. Standard uncertainty, fractions of the mass; ours, no source. */
export const STATED = { withdrawn: 0.05, lost: 0.2 } as const;

/** In place of a line's id, the cause of doubt that a mixture set aside brings with it, where a person said how much it was. */
export const SET_ASIDE = 'set-aside';
