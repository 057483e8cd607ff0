import type { LabelPage } from '#lib/protocol/label';

/** Materials of these bars by the workshop's names, in a row. */
export const namesIn = (label: LabelPage, ids: readonly string[]): string =>
  ids.map((id) => label.materials.find((one) => one.id === id)?.name ?? id).join(', ');
