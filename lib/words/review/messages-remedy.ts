import { aboutWords, limitWords, remedyName, whyNotWords } from '../remedy-messages';
import { planStep } from '../quantities';
import type { Show } from '../quantities';
import { capital, listed } from '../words';

type Params = Readonly<Record<string, string | number>>;

const at = (params: Params, prefix: string, key: string): string | number | undefined => params[prefix === '' ? key : `${prefix} ${key}`];
const numberAt = (params: Params, prefix: string, key: string): number | null => {
  const value = at(params, prefix, key);
  return typeof value === 'number' ? value : null;
};

const takenIn = (params: Params, show: Show, prefix: string): string | null => {
  const taken = numberAt(params, prefix, 'taken') ?? 0;
  return taken === 0 ? null : show.mass(taken, planStep(taken));
};

const nameOf = (params: Params, show: Show, prefix: string): string => {
  const mass = numberAt(params, prefix, 'mass');
  const of = at(params, prefix, 'of');
  return remedyName(String(at(params, prefix, 'kind') ?? ''), {
    of: typeof of === 'string' ? of : null,
    mass: mass === null ? null : show.mass(mass, planStep(mass)),
    count: numberAt(params, prefix, 'count') ?? 2,
    moves: [1, 2, 3].flatMap((n) => {
      const [moved, by] = [at(params, prefix, `of ${n}`), numberAt(params, prefix, `move ${n}`)];
      return typeof moved !== 'string' || by === null
        ? []
        : [{ of: moved, mass: show.mass(Math.abs(by), planStep(Math.abs(by))), less: by < 0 }];
    }),
    taken: takenIn(params, show, prefix),
  });
};

/** "superfat 6.1 %, ±2.3"; nothing where nobody could say. */
const figuresOf = (params: Params, show: Show, prefix: string): string | null => {
  const [value, low, high] = ['superfat', 'low', 'high'].map((key) => numberAt(params, prefix, key));
  if (value == null || low == null || high == null) return null;
  return `superfat ${aboutWords(show.share(value), show.share(Math.round((high - low) / 2)))}`;
};

const offered = (params: Params, show: Show, prefix: string): string => {
  const why = at(params, prefix, 'whyNot');
  const said = [figuresOf(params, show, prefix), typeof why === 'string' ? `not open: ${whyNotWords[why] ?? why}` : null];
  const about = said.filter((one) => one !== null).join(', ');
  const name = nameOf(params, show, prefix);
  return about === '' ? name : `${name} (${about})`;
};

/** What was chosen, what would come of it, why it came first, and everything else that was offered. */
export const remedyStory = (params: Params, show: Show): { readonly head: string; readonly rest: string } => {
  const figures = figuresOf(params, show, '');
  const others = Array.from({ length: numberAt(params, '', 'others') ?? 0 }, (_, n) => offered(params, show, `other ${n + 1}`));
  const own = Array.from({ length: numberAt(params, '', 'own') ?? 0 }, (_, n) => {
    const mass = numberAt(params, '', `own ${n + 1}`) ?? 0;
    return `${show.mass(mass, planStep(mass))} ${String(at(params, '', `own ${n + 1} of`) ?? '').toLowerCase()}`;
  });
  const why = at(params, '', 'why');
  const leaves = String(at(params, '', 'leaves') ?? '')
    .split(' ')
    .filter((limit) => limit !== '')
    .map((limit) => (limitWords as Readonly<Record<string, string>>)[limit] ?? limit.replaceAll('-', ' '));
  const rest = [
    ...(figures === null ? [] : [`${capital(figures)}.`]),
    ...(leaves.length === 0 ? [] : [`Outside the formula, and loosened for this batch: ${listed(leaves)}.`]),
    typeof why === 'string' ? `It was recommended: ${whyWords(why)}.` : notRecommended(params, show),
    ...(own.length === 0 ? [] : [`What was set aside is a batch of its own: like the plan it needs ${listed(own)}.`]),
    ...(others.length === 0 ? [] : [`Also offered: ${listed(others)}.`]),
    ...(params['solved'] === 0 ? ['Nothing could be worked out then.'] : []),
  ];
  return { head: `Way out chosen: ${nameOf(params, show, '')}.`, rest: rest.join(' ') };
};

const whyWords = (why: string): string => WHY[why] ?? why.replaceAll('-', ' ');

/** Which one was recommended instead, and why. */
const notRecommended = (params: Params, show: Show): string => {
  const first = Array.from({ length: numberAt(params, '', 'others') ?? 0 }, (_, n) => `other ${n + 1}`).find(
    (prefix) => typeof at(params, prefix, 'why') === 'string',
  );
  if (first === undefined) return 'None was recommended.';
  return `Recommended was another: ${nameOf(params, show, first)}, ${whyWords(String(at(params, first, 'why')))}.`;
};

const WHY: Readonly<Record<string, string>> = {
  'inside-every-limit': 'every result stayed inside its limits',
  'still-solid': 'nothing was mixed yet',
  'in-its-own-vessel': 'nothing else was touched',
  'finish-what-was-begun': 'it finishes what was begun',
  'back-to-plan': 'it leads back to the plan',
  'not-worked-out': 'nothing else could be done; what it does was not worked out, since the plan was typed',
  'least-change': 'the least change that keeps every limit',
  'only-way': 'every other way left a limit',
  'safe-though-outside': 'no way kept every limit, and this one was safe',
  'least-doubtful': 'no way was sure not to be lye-heavy, and this one was the least likely to be',
  'nothing-else': 'nothing else could be done',
};

const WRONG: Readonly<Record<string, string>> = {
  spill: 'something was spilt',
  lot: 'it was another lot',
  material: 'it was another material',
  'left-in-jug': 'some of it still lies in its jug',
  stock: 'no more of it is left on the shelf than this',
  melted: 'it lies solid no more',
};

/** "Olive oil: it was another lot." and what it truly was. */
export const wrongStory = (params: Params, show: Show): { readonly head: string; readonly rest: string } => {
  const material = typeof params['material'] === 'string' ? `${params['material']}: ` : '';
  const mass = numberAt(params, '', 'mass');
  const more = [
    mass === null ? null : `${show.mass(mass, planStep(mass))} by hand`,
    typeof params['truly'] === 'string' ? `truly ${params['truly']}` : null,
    typeof params['lot'] === 'string' ? `truly lot ${params['lot']}` : null,
    typeof params['vessel'] === 'string' ? `in the ${params['vessel']}` : null,
  ].filter((one) => one !== null);
  const what = WRONG[String(params['what'])] ?? 'something went wrong';
  return { head: `${capital(`${material}${what}`)}.`, rest: more.length === 0 ? '' : `${capital(more.join(', '))}.` };
};
