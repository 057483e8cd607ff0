import type { RemedyCaution, RemedyWhy } from '#lib/work/batch/remedy/types';

/** Words of the ways out of an over-pour or a stated wrong, fetched after the bench itself stands. */
export const waysMessages = {
  recommended: (why: string) => `Recommended: ${why}`,
  superfat: (about: string) => `superfat ${about}`,
  matter: {
    lye: (share: string) => `lye ${share}`,
    share: (share: string, name: string) => `${name.toLowerCase()} ${share} of the oils`,
    fragrance: (share: string) => `fragrance ${share} of its limit`,
    moulds: (share: string) => `moulds ${share} full`,
  },
  ml: (ml: number) => `${ml} ml`,
  full: (share: string) => `moulds ${share} full`,
  adds: (mass: string) => `adds ${mass}`,
  addsInAll: (mass: string) => `${mass} more in all`,
  takes: (mass: string) => `takes out ${mass}`,
  line: (name: string, from: string, to: string) => `${name} ${from} → ${to}`.trim(),
  /** Two lines of a small card are all it has; one by one they are weighed later. */
  ownBatch: (needs: readonly string[], mass: string) =>
    `its own batch, parked: needs ${needs.length > 1 ? `${needs.length} more, ${mass}` : needs.join('')}`,
  unsolved: 'could not be worked out',
  whither: {
    bottle: 'back to its bottle',
    waste: 'to waste',
    'other-vessel': 'kept elsewhere',
    caustic: 'caustic waste: label it',
    aside: (mark: string) => `label it ${mark}`,
  },
  crossOut: { name: 'Cross out', sub: (mass: string) => `take ${mass} back out, weigh again` },
  why: {
    'inside-every-limit': 'every result stays inside its limits',
    'still-solid': 'it is still solid: nothing is mixed',
    'in-its-own-vessel': 'nothing else is touched',
    'finish-what-was-begun': 'finishes what was begun',
    'back-to-plan': 'back to what was planned',
    'not-worked-out': 'nothing of it can go back',
    'least-change': 'least change that keeps every limit',
    'only-way': 'the only way that keeps every limit',
    'safe-though-outside': 'no way keeps every limit: this one is safe',
    'least-doubtful': 'none is sure: this one least likely lye-heavy',
    'nothing-else': 'nothing else can be done',
  } satisfies Record<RemedyWhy, string>,
  cautions: {
    'may-be-lye-heavy': 'may be lye-heavy',
    'only-if-solid': 'only while it lies there solid',
    'never-back-to-stock': 'never back to its stock',
    'caustic-waste': 'caustic waste: label it',
    'cool-first': 'only into cooled lye',
    slowly: 'slowly',
    protect: 'goggles, gloves, water',
    'label-as-own-batch': 'its own batch, parked: label it',
    'outside-formula': 'recorded as outside the formula',
    'stock-not-known': 'asks first whether there is enough',
    'not-worked-out': 'not worked out: this plan was typed',
    'stop-safely': 'keeps every weight; make it safe',
  } satisfies Record<RemedyCaution, string>,
};
