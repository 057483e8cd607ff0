/** Words of the sheet on which a person states what went wrong. */
export const wrongMessages = {
  title: 'Something is wrong',
  teach: 'Say what. Nothing is taken back by it; ways out are worked out from it.',
  whats: {
    lot: { name: 'Other lot', sub: 'than the record says' },
    material: { name: 'Other material', sub: 'was poured' },
    'left-in-jug': { name: 'Still in its jug', sub: 'forgotten, found now' },
    scale: { name: 'Other scale', sub: 'from now on' },
  },
  lost: { name: 'Lost', sub: 'spilt, evaporated' },
  which: 'Which?',
  inJug: 'still in its jug',
  whichLot: 'Which lot was it truly?',
  noOtherLot: 'No other lot of it is in the stores.',
  whichMaterial: 'What was it truly? What was poured stays where it lies.',
  itWas: 'it was this',
  scaleTeach: 'Weighed there from now on, as closely as that scale shows. It is kept in the record.',
  fromNow: 'weigh it here',
};
