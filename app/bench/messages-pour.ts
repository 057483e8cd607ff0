import type { BatterWrong, Pattern } from '#lib/work/batch/pouring/types';

/** What to do with batter that went wrong: common practice, no source. The cautions are those of lye (H314), which it still is. */
export const wrongWords: Readonly<Record<BatterWrong, { readonly name: string; readonly sub: string; readonly todo: readonly string[] }>> =
  {
    'false-trace': {
      name: 'False trace',
      sub: 'thick because cool fats set',
      todo: ['Warm the pot gently, in warm water, and stir: it thins again.', 'Blend in short bursts, then look for trace anew.'],
    },
    ricing: {
      name: 'Ricing',
      sub: 'grains, mostly from the scent',
      todo: ['Blend in short bursts until the grains are gone.', 'Do not add more scent, nor water.'],
    },
    seizing: {
      name: 'Seizing',
      sub: 'sets in the pot, gets hot',
      todo: ['Stop blending. Spoon it into the moulds now and press it down.', 'It heats by itself: leave moulds open, never a lid on it.'],
    },
    separating: {
      name: 'Separating',
      sub: 'oil or lye stands apart',
      todo: [
        'Blend on until it is one again. Do not pour it as it is.',
        'If it parts again, these bars may hold pockets of lye: not for use.',
      ],
    },
  };

/** Words of parts, moulds and what goes wrong with the batter: fetched after the bench itself stands. */
export const pourWords = {
  patterns: {
    'plain-pour': { name: 'Plain pour', sub: 'one batter, no pattern' },
    'in-the-pot-swirl': { name: 'In-the-pot swirl', sub: 'colours laid into the pot' },
    'drop-swirl': { name: 'Drop swirl', sub: 'poured in by turns, from high' },
    'hanger-swirl': { name: 'Hanger swirl', sub: 'drawn through with a wire' },
    layers: { name: 'Layers', sub: 'one on top of the other' },
    'other-pattern': { name: 'Another', sub: 'named in a note' },
  } satisfies Record<Pattern, { name: string; sub: string }>,
  toPlain: {
    name: 'Plain pours instead',
    sub: (moulds: number) => (moulds === 1 ? 'for the mould not poured yet' : `for ${moulds} moulds not poured yet`),
  },
  again: 'go on as planned',
  caustic: 'It burns like lye: goggles and gloves stay on.',
  source: 'Common practice, no source.',
  lead: { part: 'part off', mould: 'pour', left: 'weigh back' },
  by: { gain: 'it stands on the scale', loss: 'by what its jug loses' },
  from: (sources: string) => `from ${sources}`,
  byTurns: (sources: readonly string[]) => sources.join(' and '),
  pot: 'the pot',
  additive: 'as much as its additive is for',
  share: (percent: string) => `${percent} of the batter`,
  all: 'all poured',
  done: (done: number, of: number) => `${done} of ${of} moulds`,
  leftOver: (mass: string) => `${mass} not poured yet`,
  open: 'Parts and moulds',
  sheet: {
    title: 'Parts and moulds',
    teach: 'Which comes next? What was poured stands beside it.',
    todo: 'to do',
    none: 'no pattern yet',
    more: 'More',
    wrong: 'Something is wrong',
    wrongSub: 'with the batter',
    photo: 'Photograph later',
    photoAsked: 'asked for',
    onScale: 'Set it on the scale',
    onScaleSub: 'weighed by what comes in',
    byLoss: (source: string) => `Out of ${source}`,
    byLossSub: 'too heavy: weighed by its loss',
    sources: (source: string) => source,
    sourcesSub: { on: 'pours into it', off: 'does not' },
    type: 'Type it',
    typed: 'by hand',
    typedPart: 'parted off by hand',
    leftBehind: 'left behind, by hand',
    plain: 'Plain pour instead',
    plainSub: 'its pattern is dropped',
    strike: 'Cross out the last',
    named: 'Which pattern?',
  },
} as const;
