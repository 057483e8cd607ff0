/** What a scale's plate says holds together: one step of its display is less than the most it bears, mg. What nobody said (`null`) fits anything. */
export const plateHolds = (capacity: number | null, division: number | null): boolean =>
  capacity === null || division === null || division < capacity;
