/** Words of the empty bench's cards, fetched after the bench itself stands. */
export const startMessages = {
  loading: 'Fetching the plans',
  failed: 'The plans could not be fetched',
  lines: (lines: number, mass: string) => `${lines} lines, ${mass}`,
  /** Said before it begins: what this bench lacks for the plan. */
  oneScale: ', all on one scale: no other here',
  byHand: ', some typed by hand: no scale here for them',
  none: 'Prepare a batch',
  noneSub: 'no plan is ready: make a formula ready under Formulas',
  lotOf: (material: string) => `Which lot of ${material.toLowerCase()}?`,
  skip: 'No lot stated',
  skipSub: 'never accepted by itself',
  ready: 'All lots chosen',
  parked: (mark: string) => `Parked: ${mark}`,
  allParked: 'Take up a parked batch',
  countParked: (count: number) => `${count} are parked`,
  moreParked: 'More parked batches',
  only: 'the only one',
  more: 'More plans',
  moreLots: 'More lots',
  page: (page: number, of: number) => `page ${page} of ${of}`,
  noLots: 'No lot of it is in the stores. Receive one first.',
} as const;
