import type { WholeChange } from '#lib/soap/remedy/whole-change';
import { mg } from '#lib/units/mass';
import { isFat, isHydroxide } from '../classes';
import { apportion, asShares } from '../shares';
import type { Bench } from './bench';
import type { MixedVessel, Stand } from './stand';
import type { RemedyAct } from './types';

/** What becomes of a fraction that leaves a mixture. */
export type WithdrawnAs = 'scoop' | 'pour-off' | 'split-off';

/** Out of a vessel of its own, or lifted out of the pot: pure, so that fats go back to their bottle; hydroxide never back to its stock. */
export const actsOfOne = ({ id, standing, vessel, line }: Stand, mass: number): readonly RemedyAct[] => {
  if (mass <= 0 || vessel === null) return [];
  const out = { line: id, vessel, mass: mg(mass) } as const;
  if (isHydroxide(line.plan)) return [{ ...out, kind: 'take-out', to: 'waste', caustic: true }];
  if (standing === 'solid') return [{ ...out, kind: 'lift-out', to: 'bottle', caustic: false }];
  if (isFat(line.plan)) return [{ ...out, kind: 'back-to-bottle', to: 'bottle', caustic: false }];
  return [{ ...out, kind: 'take-out', to: 'other-vessel', caustic: false }];
};

const PPM = 1e6;

const ofMixture = ({ vessel, holds, caustic }: MixedVessel, grams: number, as: WithdrawnAs): readonly RemedyAct[] => {
  const mass = mg(Math.round(grams * 1000));
  if (mass <= 0) return [];
  const mixture = asShares(holds as Parameters<typeof asShares>[0]);
  const held = mixture.reduce((sum, one) => sum + one.mass, 0);
  return [
    {
      kind: as,
      vessel: vessel.plan.id,
      mass,
      ppm: Math.round((mass / held) * PPM),
      shares: apportion(mass, mixture),
      to: as === 'split-off' ? 'other-vessel' : 'waste',
      caustic,
    },
  ];
};

/** Everything that leaves its vessel, in the order of the lines, mixtures last. */
export const actsOf = ({ stands, mixed }: Bench, { own, taken }: WholeChange, as: WithdrawnAs): readonly RemedyAct[] => [
  ...stands.flatMap((stand, i) => actsOfOne(stand, stand.apart - Math.round((own[i] ?? 0) * 1000))),
  ...mixed.flatMap((one, v) => ofMixture(one, taken[v] ?? 0, as)),
];

/** Milligrams of a line that acts take. */
export const takenOf = (acts: readonly RemedyAct[], line: Stand['id']): number =>
  acts.reduce((sum, act) => {
    if ('shares' in act) return sum + act.shares.reduce((part, share) => (share.line === line ? part + share.mass : part), 0);
    return act.kind !== 'finish-pour' && act.line === line ? sum + act.mass : sum;
  }, 0);
