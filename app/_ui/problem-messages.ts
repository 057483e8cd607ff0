import type { Problem, ProblemCode } from '#lib/work/formula/index';

type Params = Problem['params'];
type Says = string | ((params: Params) => string);

const PARTS: Readonly<Record<string, string>> = {
  fat: 'oils',
  fats: 'oils',
  alkali: 'hydroxide',
  liquid: 'liquid',
  acid: 'acids',
  fragrance: 'fragrance',
  extra: 'the rest',
  blend: 'the blend',
};
const partOf = (params: Params): string => PARTS[String(params['part'])] ?? String(params['part']);
const g = (value: unknown): string => `${Number(Number(value).toPrecision(6))}`;

/** What is wrong and what to do about it, by code. */
const SAYS: Readonly<Record<ProblemCode, Says>> = {
  missing: 'Nothing stands here yet.',
  'not-a-number': ({ text }) => (text === undefined || text === '' ? 'A number belongs here.' : `“${text}” is no number.`),
  'which-number': ({ one, other }) => `Is that ${one} or ${other}? Write it without the mark that groups.`,
  'not-above-zero': 'More than nothing belongs here.',
  negative: 'Below zero means nothing here.',
  'too-large': ({ most }) => `More than can be meant: at most ${g(most)}.`,
  'out-of-range': ({ low, high }) => `Between ${g(low)} and ${g(high)} it can be, not beyond.`,
  'band-upside-down': 'The lower end is above the upper.',
  'not-whole': 'A whole number belongs here.',
  'unknown-unit': 'This unit is not known. Grams, kilograms, ounces, pounds, millilitres, fluid ounces and % are.',
  'unknown-material': 'This material is not in the stores any more. Choose another.',
  'unknown-lot': 'This lot is not in the stores any more. Choose another.',
  'lot-of-another': 'This lot is of another material.',
  'unknown-mould': 'This mould is not among yours any more. Choose another.',
  'unknown-part': 'It cannot go into that part of the batter: there is none such, or it goes in before trace.',
  'unknown-blend': 'It is a share of a blend, and in none.',
  twice: 'It stands here twice.',
  'alkali-by-loss': ({ material }) => `${material ?? 'This'} is weighed into its own dry cup, never by what its bottle loses.`,
  'wrong-part': ({ material }) => `${material ?? 'This'} cannot play this part.`,
  'wrong-share': 'A share of that is not how this part is reckoned. Choose another measure.',
  'shares-sum': (params) =>
    params['beside'] === undefined
      ? `The shares of ${partOf(params)} come to ${g(params['sum'])} %, not to 100.`
      : `Some of ${partOf(params)} are weights, and the shares of the others come to ${g(params['sum'])} %: no room is left for them. Give what is left a share of its own.`,
  'two-rests': (params) => `Only one of ${partOf(params)} can be what is left.`,
  'unweighed-counts': ({ material }) =>
    `${material === '' ? 'This' : material} changes the superfat or the lye by how much there is of it: a spoon says that to nobody. Weigh it.`,
  'ounces-unclear': 'Weight or fluid ounces? Choose the measure beside it.',
  'locks-clash': ({ locked, total, unit }) =>
    `What is locked comes to ${g(locked)} ${unit ?? ''}, and there is room for ${g(total)} ${unit ?? ''}: unlock one.`,
  'locks-size': ({ locked }) =>
    `${g(locked)} g of the oils are locked by their weight, and no batch with them comes out at this size: unlock one, or choose another size.`,
  'no-size': 'Shares alone have no size yet: say how large the batch is.',
  'no-fat': 'No oil stands here yet: add one.',
  'no-alkali': 'No hydroxide stands here yet: add it.',
  'no-liquid': 'No liquid stands here yet: add water or another.',
  'superfat-not-said': 'How much of the fat is to stay unsoaped? Nothing is assumed for you.',
  'lye-not-said': 'How strong is the lye to be? Nothing is assumed for you.',
  'stock-lye-strength': 'A stock lye alone is as strong as it is: choose the weights typed, or add the liquid that thins it.',
  'said-twice': 'It is wished here and fixed by weights as well. Take one away.',
  'alkali-too-much': ({ over }) => `The hydroxide as weighed is ${g(over)} g more than the superfat allows.`,
  'lye-too-weak': ({ most, dissolved }) =>
    `The liquids as weighed make it ${g(most)} % at most.${
      Number(dissolved) > 0
        ? ` What else goes into the lye, ${g(dissolved)} g, weakens it too: let it go in at trace, or ask for weaker lye.`
        : ''
    }`,
  'purity-missing': 'How pure it is stands on its bag: choose the lot with its certificate, from the stores.',
  'strength-missing': 'How strong this acid is stands on its bottle: choose the lot with its certificate, from the stores.',
  'lye-too-strong': ({ percent }) =>
    `Of hydroxide and water ${Number(Number(percent).toPrecision(3))} % would be hydroxide. What is known of lye ends at 50 %: ask for more water.`,
  cycle: 'This preparation holds itself.',
  'certificate-outside': ({ value, low, high }) =>
    `The certificate says ${g(value)}; its standard allows ${g(low)} to ${g(high)}. If it stands so on the paper, confirm it with the lot.`,
  'mould-unknown-volume': 'What this mould holds is not known.',
  'batch-too-large': ({ grams }) => `${g(grams)} g is more than a workshop of this kind can mean.`,
  'too-small': 'So little of it rounds to nothing.',
  'not-computable': ({ words }) => `It cannot be worked out: ${words}.`,
  'not-json': ({ words }) => `This is no JSON from here on${words === undefined ? '' : `: ${words}`}.`,
  'wrong-shape': ({ words, of }) => `${of === undefined || of === '' ? '' : `In the ${of}: `}${words ?? 'Something else belongs here.'}`,
  'other-version': ({ version }) =>
    `This file of formulas is of version ${version ?? '“not said”'}; version 1 is read here. A newer Potwatch wrote it: take the file there, or update this one.`,
  'other-format': 'This file is not one of formulas as this program writes them.',
};

export const problemText = ({ code, params }: Problem): string => {
  // A newer program may know another code than this page, left open.
  const says: Says = (SAYS as Readonly<Partial<Record<ProblemCode, Says>>>)[code] ?? code;
  return typeof says === 'string' ? says : says(params);
};
