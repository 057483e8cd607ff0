const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;
const MINUTE_MS = 60_000;

/** Nobody works before eight or after seven; what the night brought is done in the first half hour of the morning. */
const [OPENS, CAUGHT_UP, CLOSES] = [8, 8.5, 19] as const;
const NIGHT = OPENS + 24 - CLOSES;

/**
 * When somebody gets round to what is due at a moment: in working hours, at the latest the next morning. Later moments never come before
 * earlier ones. Wall ms.
 */
export const workedAt = (due: number, offsetMin: number): number => {
  const local = due + offsetMin * MINUTE_MS;
  const evening = Math.floor((local - CLOSES * HOUR_MS) / DAY_MS) * DAY_MS + CLOSES * HOUR_MS;
  const hours = (local - evening) / HOUR_MS;
  const clock =
    hours < NIGHT ? OPENS + ((CAUGHT_UP - OPENS) * hours) / NIGHT : CAUGHT_UP + ((CLOSES - CAUGHT_UP) * (hours - NIGHT)) / (CLOSES - OPENS);
  const midnight = evening + (24 - CLOSES) * HOUR_MS;
  return Math.round(midnight + clock * HOUR_MS - offsetMin * MINUTE_MS);
};
