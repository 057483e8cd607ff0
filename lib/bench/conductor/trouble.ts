import { mouldsIn } from '#lib/work/batch/pouring/places';
import { BATTER_WRONGS, mouldContainer, PATTERNS } from '#lib/work/batch/pouring/types';
import { choice } from './choices';
import type { Choice, Scene, Scenery } from './stage';

/** As many patterns as stand beside the card that turns the page, on the smallest screen. */
const A_PAGE = 3;

/** Every mould's pattern is named before lye and oils are joined, one mould after the other; `null`: all are. */
export const patternsScene = (stage: Scenery): Scene | null => {
  const mould = mouldsIn(stage.batch).find(({ pattern }) => pattern === null);
  if (mould === undefined) return null;
  const { n, name } = mould;
  const page = stage.memory.patternPage;
  const params = { mark: `${stage.batch.mark}/${n}`, mould: name };
  const named = PATTERNS.slice(page * A_PAGE, (page + 1) * A_PAGE).map((pattern) =>
    choice(pattern, params, false, () => void stage.wants.push({ kind: 'name-pattern', body: { mould: n, pattern } })),
  );
  const more = choice('more-patterns', {}, false, () => {
    stage.memory.patternPage = (page + 1) % Math.ceil(PATTERNS.length / A_PAGE);
  });
  return {
    phase: 'patterns',
    portion: { at: 'name', mass: null, job: { key: mouldContainer(n), by: 'gain', name: `${params.mark} ${name}`, from: [] } },
    choices: [...named, more],
    say: { key: `pattern ${n}`, code: 'pattern', params },
  };
};

const MARKS = ['thin', 'medium', 'thick'] as const;

/** Something is wrong with the batter: a person says what; then what to do stands beside, until trace is marked anew or patterns dropped. */
export const troubleScene = (stage: Scenery): Scene | null => {
  const { trouble } = stage.batch.pour;
  if (trouble === null) return null;
  const say = { key: `trouble ${trouble}`, code: 'trouble', params: { trouble } } as const;
  if (trouble === 'which')
    return {
      phase: 'trouble',
      say,
      choices: BATTER_WRONGS.map((what) => choice(what, {}, false, () => void stage.wants.push({ kind: 'state-batter', body: { what } }))),
    };
  const marks = MARKS.map((mark) =>
    choice(`trace-${mark}`, {}, false, () => void stage.wants.push({ kind: 'stamp-trace', body: { mark, note: '' } })),
  );
  return { phase: 'trouble', say, choices: [...marks, ...toPlain(stage)] };
};

/** Patterns that can still become plain pours: those of moulds that were not poured yet. */
const toPlain = (stage: Scenery): readonly Choice[] => {
  const { pours } = stage.batch.pour;
  const left = mouldsIn(stage.batch).filter(
    ({ n, pattern }) => pattern !== 'plain-pour' && !pours.some(({ mould, struck }) => mould === n && struck === null),
  );
  if (left.length === 0) return [];
  return [
    choice('to-plain-pour', { moulds: left.length }, true, () => {
      for (const { n } of left) stage.wants.push({ kind: 'name-pattern', body: { mould: n, pattern: 'plain-pour' } });
    }),
  ];
};
