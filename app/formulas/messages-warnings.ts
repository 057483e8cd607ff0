import type { Display } from '#lib/units/display';
import { massText, temperatureText } from '#lib/units/format';
import type { Warning, WarningCode } from '#lib/work/formula/index';

/** Quantities as the person reads them. Milligrams, °C. */
interface Units {
  readonly mass: (milligrams: unknown) => string;
  readonly at: (celsius: unknown) => string;
}
type Says = (p: Warning['params'], units: Units) => string;

/** What a warning says, by code. */
const SAYS: Readonly<Record<WarningCode, Says>> = {
  crystallises: ({ celsius, phase }, { at }) => `At ${at(celsius)} this lye would not stay clear: ${phase} settles out.`,
  'solubility-unknown': () => 'Whether all of it stays dissolved at the coldest is not known.',
  'lye-strength-unusual': ({ percent, low, high }) => `Lye of ${percent} % lies outside the usual ${low} to ${high} %.`,
  'heat-unknown': ({ percent }) => `How hot lye of ${percent} % gets is not known: give the jug room and a cold bath.`,
  'dilution-heat-unknown': () => 'A stock lye warms when it is thinned; by how much is not reckoned.',
  'peak-over-rating': ({ peak, upper, rating, vessel }, { at }) =>
    `The lye can get ${at(peak)}, and by what is not known of it as hot as ${at(upper)} (k = 2); the ${vessel} is made for ${at(rating)}.`,
  'rating-unknown': ({ vessel, peak }, { at }) =>
    `Nobody has said how hot the ${vessel ?? 'jug'} may get${peak === undefined ? '' : `; the lye can get ${at(peak)}`}.`,
  'lye-boils': ({ peak }, { at }) => `The lye can get ${at(peak)} and may boil: slowly, with the jug in cold water.`,
  'lye-heavy': ({ percent }) => `More hydroxide than the oils take: superfat ${percent} %. This is never weighed.`,
  'lye-heavy-possible': ({ low, chance }) => `Some hydroxide may be left over: superfat may be as low as ${low} % (chance ${chance}).`,
  'superfat-high': ({ percent }) => `A superfat of ${percent} % leaves a soft bar that turns early.`,
  'likely-to-separate': ({ percent, of }) =>
    of === 'fragrance'
      ? `With ${percent} % of fragrance on the oils it may weep.`
      : `With lye of ${percent} % it traces slowly and may part before it sets.`,
  'likely-to-crack': ({ percent, clay }) => `It may crack as it heats: lye ${percent} %, clay and colour ${clay} % on the oils.`,
  'likely-to-overheat': ({ percent }) => `Sugar and milk solids are ${percent} % on the oils: it heats in the mould.`,
  'early-rancidity': ({ iodine, polyunsaturated }) =>
    `It may turn early: ${[...(iodine === undefined ? [] : [`iodine value ${iodine}`]), ...(polyunsaturated === undefined ? [] : [`${polyunsaturated} % of linoleic and linolenic acid`])].join(', ')}.`,
  'soft-at-unmoulding': ({ percent }) => `With ${percent} % of hard fatty acids it dents at unmoulding: leave it longer.`,
  'false-trace': ({ fats, celsius }, { at }) =>
    `${fats} may set above ${at(celsius)} and pass for trace. Note where your blend begins to set.`,
  'milk-scorches': ({ celsius }, { at }) => `The milk scorches above ${at(celsius)}.`,
  'scale-cannot-serve': ({ line, scale, wanted, couldServe, smallest, neededDivision }, { mass }) =>
    [
      `${scale === '' ? 'No scale here' : `The ${scale}`} cannot tell ${line} to ± ${mass(wanted)}.`,
      smallest === undefined ? '' : `The least it can weigh so closely is ${mass(smallest)}.`,
      couldServe !== ''
        ? `Could: ${couldServe}.`
        : neededDivision === undefined
          ? ''
          : `A scale with a division of ${mass(neededDivision)} would.`,
    ]
      .filter((one) => one !== '')
      .join(' '),
  'scale-never-checked': ({ scale }) => `The ${scale} has never been checked: the least it can scatter is taken.`,
  'capacity-exceeded': ({ vessel, scale, gross, capacity }, { mass }) =>
    `The ${vessel} with what goes in would be ${mass(gross)}; the ${scale} bears ${mass(capacity)}.`,
  'no-scale': () => 'No scale is set up: weights will be typed by hand.',
  'part-pours': ({ line, pours }) => `${line} is weighed in ${pours} goes.`,
  'weighed-by-loss': ({ line, vessel }) =>
    `The ${vessel} with all that goes in is more than a scale here bears: ${line} is weighed by what its bottle loses.`,
  'over-fragrance-limit': ({ sum, most }) =>
    `The fragrance is over what its certificates allow: ${sum} of 1. It may be ${most} times what it is.`,
  'fragrance-limit-unknown': ({ without }) => `No certificate limit for ${without}: what may be in a bar is not known.`,
  browning: ({ fragrance, vanillin }) => `${fragrance} holds ${vanillin} % of vanillin: the bar turns brown.`,
  'mould-overfull': ({ mould, percent }) => `The ${mould} would be ${percent} % full: it runs over.`,
  'mould-may-overfill': ({ mould, percent, u }) => `The ${mould} would be ${percent} % full, ± ${u} (k = 2): it may run over.`,
  'mould-underfull': ({ mould, percent }) => `The ${mould} would be only ${percent} % full.`,
  'volume-unknown': () => 'How much room the batter takes is not known at this temperature or strength.',
  'vessel-too-small': ({ vessel }) => `The ${vessel} is too small for what goes in, with room to stir.`,
  'vessel-unknown': ({ vessel }) => `No ${vessel} is noted in the workshop, and one is asked for.`,
  'vessel-glass': ({ vessel }) => `The ${vessel} is glass: hot lye etches and cracks it.`,
  'vessel-eaten': ({ vessel, material }) => `The ${vessel} is ${material}: hydroxide eats it. It is left out.`,
  unweighed: ({ text }) => `“${text}” is not weighed and left out of every figure.`,
  'from-memory': ({ material, what }) => `${material}, from memory, not from a standard: ${what}.`,
  'certificate-unusual': ({ material, value, low, high }) =>
    `${material}: the certificate’s ${value} lies outside the usual ${low} to ${high}.`,
  'certificate-in-range': ({ material, value, low, high }) => `${material}: the certificate’s ${value} lies inside ${low} to ${high}.`,
  'certificate-confirmed-outside': ({ material, value, low, high }) =>
    `${material}: the certificate’s ${value} was confirmed outside the standard’s range of ${low} to ${high}.`,
  'outside-reference': ({ material, percent, low, high, number }) =>
    `${material} at ${percent} % lies outside the ${low} to ${high} % that ${number} allows.`,
  'mass-not-scaled': ({ material }) => `${material} is given as a weight: it does not grow with the batch.`,
  'looks-alike': () => 'Some white powders here look alike: read the label, then the lot, then the cup.',
};

export const warningText = ({ code, params }: Warning, display: Display): string => {
  const text = SAYS[code](params, {
    mass: (milligrams) => massText(Number(milligrams), display, 10),
    at: (celsius) => temperatureText(Math.round(1000 * Number(celsius)), display),
  });
  return text.charAt(0).toUpperCase() + text.slice(1);
};
