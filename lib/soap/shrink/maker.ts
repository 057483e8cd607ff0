import { add3, inverse3, less3, onto3, times3, turned3, type Three, type ThreeByThree } from './matrix';

/**
 * What is believed of a lot before it is weighed, θ = (r, u, v): water that stays at day 60 for each gram of dry matter, ln of the time
 * constant in days, ln of the stretching power. `between` is how unsure this maker's own mean still is.
 */
export interface MakerBelief {
  readonly mean: Three;
  readonly between: ThreeByThree;
  /** Lots it was learned from. */
  readonly lots: number;
}

/** θ of one lot after its weighings. */
export interface Theta {
  readonly mean: Three;
  readonly covariance: ThreeByThree;
}

/** Slow lots are also less stretched; r goes its own way. */
const CORRELATION = -0.5;

const covariance = ([r, u, v]: Three): ThreeByThree => [
  [r * r, 0, 0],
  [0, u * u, CORRELATION * u * v],
  [0, CORRELATION * u * v, v * v],
];

/**
 * A maker of whom nothing is known, and how lots of one maker differ. Tuned on simulated bricks of soap (finite volumes, diffusion that
 * depends on concentration, seasons, moved rooms); no published drying data of soap bars was found. Not seen on real bars.
 */
export const UNKNOWN_MAKER: MakerBelief = { mean: [0.19, 3.24, -0.57], between: covariance([0.042, 0.945, 0.218]), lots: 0 };
const WITHIN = covariance([0.015, 0.7, 0.11]);

/** What is believed of this maker's next lot. */
export const nextLot = ({ mean, between }: MakerBelief): Theta => ({ mean, covariance: add3(between, WITHIN) });

/**
 * A maker's belief after one more lot: the Kalman step of a lot's posterior on the maker's mean.
 * @param before what was believed of that lot: `nextLot` of the belief it was fitted with.
 */
export const learnLot = (maker: MakerBelief, before: Theta, after: Theta): MakerBelief => {
  const gain = times3(maker.between, inverse3(before.covariance));
  const moved = onto3(gain, [after.mean[0] - before.mean[0], after.mean[1] - before.mean[1], after.mean[2] - before.mean[2]]);
  const narrowed = times3(times3(gain, less3(before.covariance, after.covariance)), turned3(gain));
  return {
    mean: [maker.mean[0] + moved[0], maker.mean[1] + moved[1], maker.mean[2] + moved[2]],
    between: less3(maker.between, narrowed),
    lots: maker.lots + 1,
  };
};
