import type { PortionCue } from '#lib/bench/cue';
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
    'plain-pour': { name: 'Plain pour', sub: 'no pattern' },
    'in-the-pot-swirl': { name: 'In-the-pot swirl', sub: 'laid into the pot' },
    'drop-swirl': { name: 'Drop swirl', sub: 'by turns, from high' },
    'hanger-swirl': { name: 'Hanger swirl', sub: 'drawn with a wire' },
    layers: { name: 'Layers', sub: 'one upon the other' },
    'other-pattern': { name: 'Another', sub: 'see the notes' },
  } satisfies Record<Pattern, { name: string; sub: string }>,
  toPlain: {
    name: 'Plain pours',
    sub: (moulds: number) => (moulds === 1 ? '1 mould left' : `${moulds} moulds left`),
  },
  again: 'go on as planned',
  morePatterns: { name: 'Others', sub: 'more patterns' },
  first: (name: string, todo: string) => `${name}. ${todo}`,
  caustic: 'It burns like lye: goggles and gloves stay on.',
  source: 'Common practice, no source.',
  lead: { part: 'part', mould: 'pour', left: 'left' },
  titles: { part: 'Into its jug', left: 'What stayed behind' },
  by: { gain: 'weighed on the scale', loss: 'by its loss', pot: 'by what the pot loses' },
  from: (sources: string) => `from ${sources}`,
  byTurns: (sources: readonly string[]) => sources.join(' and '),
  pot: 'the pot',
  additive: 'as much as its additive is for',
  share: (percent: string) => `${percent} of the batter`,
  all: 'all poured',
  done: (done: number, of: number) => `${done} of ${of} moulds`,
  leftOver: (mass: string) => `${mass} left`,
  open: 'Parts and moulds',
  sheet: {
    title: 'Parts and moulds',
    teach: 'Which comes next? What was poured stands beside it.',
    how: 'How is it weighed?',
    todo: 'to do',
    none: 'no pattern yet',
    more: 'More',
    wrong: 'Wrong',
    wrongSub: 'with the batter',
    leftIn: (poured: string) => `left in it: ${poured}`,
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

/** What to do about the next portion, by what its pot does on the scale. */
export const portionActs = {
  'set-down': 'Set it on the scale',
  'set-pot': 'Set the pot on the scale',
  'set-jug': 'Set its jug on the scale',
  settling: 'Hands off: taking the zero',
  stands: 'Zeroed. Pour',
  off: 'Pour, then set it back',
  moving: 'Let it settle',
  more: 'Heavier than it was',
  offer: 'Go on takes it',
  strange: 'That is not it',
  which: 'This jug, unpoured?',
  probe: 'Take the probe out',
  'no-scale': 'Type the portions',
  'too-heavy': 'Too heavy: type them',
  clear: 'Clear the scale first',
  name: 'Choose its pattern',
  closing: 'All poured? Then close it',
  done: 'All poured. Close it',
} satisfies Record<PortionCue['at'], string>;
