import type { VesselUse } from '../../batch/plan';
import { isEaten } from '../vessels';
import type { Warning } from '../warning';
import { because, practice, warn, type Planning } from './warn';

export const benchWarnings = (planning: Planning): readonly Warning[] => [
  ...scales(planning),
  ...capacities(planning),
  ...vessels(planning),
  ...moulds(planning),
  ...material(planning),
];

const USP = because('2·max(s, 0.41 d) over the line’s own tolerance, the form of USP <41>; OIML R 76 shown for comparison', 'standard');

const scales = ({ lines, context, places }: Planning): readonly Warning[] => {
  if (context.scales.length === 0) return [warn('no-scale', 'mind', because('no scale is set up: weights will be by hand', 'typed'))];
  const found: Warning[] = [];
  for (const { plan, figures, scale, item } of lines) {
    const { id: entry } = item.entry;
    const service = figures.scale;
    const name = scale?.name ?? '';
    if (!service.serves) {
      const params = {
        line: plan.material.name,
        scale: name,
        wanted: figures.tolerance.wanted,
        tolerance: plan.tolerance,
        couldServe: service.couldServe.join(', '),
        ...(service.smallest === null ? {} : { smallest: service.smallest }),
        ...(service.neededDivision === null ? {} : { neededDivision: service.neededDivision }),
      };
      const red = plan.upper !== null && plan.target + plan.tolerance > plan.upper;
      found.push(warn('scale-cannot-serve', red ? 'must' : 'mind', USP, { entry, params, derivation: `line:${plan.id}` }));
    }
    if (figures.pours.length > 1) {
      const why = because('more than the vessel or the scale takes at once', 'computed');
      found.push(warn('part-pours', 'note', why, { entry, params: { line: plan.material.name, pours: figures.pours.length } }));
    }
    if (plan.mode === 'loss' && item.entry.weighed !== 'loss') {
      const vessel = places.used.find(({ id }) => id === plan.vessel)?.name ?? '';
      const why = because('capacity limits gross', 'standard');
      found.push(warn('weighed-by-loss', 'note', why, { entry, params: { line: plan.material.name, vessel } }));
    }
  }
  const unchecked = [...new Set(lines.flatMap(({ scale }) => (scale !== null && scale.repeatability === null ? [scale.name] : [])))];
  for (const scale of unchecked) {
    const why = because('repeatability not measured: 0.41 d stands in, the least it can be', 'standard');
    found.push(warn('scale-never-checked', 'mind', why, { params: { scale } }));
  }
  return found;
};

/** The first line of each vessel with which more stands on the scale than that bears. */
const capacities = ({ lines, places }: Planning): readonly Warning[] =>
  places.used.flatMap((vessel): readonly Warning[] => {
    const over = lines.find(({ plan, scale, gross }) => plan.vessel === vessel.id && gross > (scale?.capacity ?? Number.POSITIVE_INFINITY));
    if (over === undefined) return [];
    const { scale, gross, item } = over;
    const params = { vessel: vessel.name, scale: scale?.name ?? '', gross, capacity: scale?.capacity ?? 0 };
    return [warn('capacity-exceeded', 'must', because('capacity limits gross', 'standard'), { entry: item.entry.id, params })];
  });

const HEADROOM: Readonly<Record<VesselUse, string>> = {
  oils: 'headroom: a pot is filled to four fifths, for stick and splash',
  liquid: 'headroom: a lye jug is filled to three fifths, for lye that spits',
  hydroxide: 'headroom: a cup is filled to seventeen twentieths',
  aside: 'headroom: a cup is filled to seventeen twentieths, loose powders taken at 2.5 mL to the gram',
};

const vessels = ({ places, context }: Planning): readonly Warning[] => [
  ...places.taken.flatMap(({ vessel, fits, madeUp }): readonly Warning[] => {
    const params = { vessel: vessel.name };
    if (madeUp) return [warn('vessel-unknown', 'mind', because('no such vessel is noted in the workshop', 'typed'), { params })];
    if (fits === 'no') return [warn('vessel-too-small', 'must', practice(HEADROOM[vessel.use]), { params })];
    return [];
  }),
  ...context.vessels.filter(isEaten).map(({ name, material }) =>
    warn(
      'vessel-eaten',
      'note',
      because('hydroxide eats aluminium, zinc and tin and frees hydrogen (safety data sheet, section 10)', 'standard'),
      {
        params: { vessel: name, material },
      },
    ),
  ),
];

const moulds = ({ sizing }: Planning): readonly Warning[] => {
  if (sizing === null) return [warn('volume-unknown', 'mind', because('outside the tables of density', 'computed'))];
  return sizing.moulds.flatMap(({ name, full, u, verdict }, at): readonly Warning[] => {
    if (verdict === 'fits') return [];
    const said = {
      params: { mould: name, percent: Number((100 * full).toFixed(1)), u: Number((200 * u).toFixed(1)) },
      derivation: `mould:${at}`,
    };
    const why = because('batter volume by its parts over the mould’s own', 'computed');
    if (verdict === 'over') return [warn('mould-overfull', 'must', why, said)];
    return [verdict === 'under' ? warn('mould-underfull', 'note', why, said) : warn('mould-may-overfill', 'mind', why, said)];
  });
};

const ALIKE = practice('hydroxide, citric acid, sugar and salt look alike: the label, then the lot, then the cup');

const material = ({ model, formula }: Planning): readonly Warning[] => {
  const recalled = new Map<string, { readonly entry: string; readonly source: string; readonly whats: Set<string> }>();
  for (const { found, entry } of model.items) {
    for (const { figure, name, what } of found.makeup.values) {
      // A density barely matters, nor does water; what takes or gives hydroxide does.
      if (figure.grade !== 'from memory' || what === 'density' || what === 'water') continue;
      const one = recalled.get(name) ?? { entry: entry.id, source: figure.source, whats: new Set<string>() };
      recalled.set(name, one);
      one.whats.add(what);
    }
  }
  const white = model.items.some(({ found: { material: one } }) => one?.kind === 'acid' || (one?.kind === 'additive' && one.dissolves));
  const stays = model.items.filter(
    ({ part, amount }) => part !== 'fat' && amount.kind === 'mass' && model.natural === null && formula.size !== null,
  );
  return [
    ...model.unweighed.map(({ entry, text }) =>
      warn('unweighed', 'mind', because('spoons weigh differently each time: left out of every figure', 'common practice'), {
        entry,
        params: { text },
      }),
    ),
    ...[...recalled].map(([name, { entry, source, whats }]) =>
      warn('from-memory', 'note', because(source, 'from memory'), { entry, params: { material: name, what: [...whats].join(', ') } }),
    ),
    ...(white ? [warn('looks-alike', 'note', ALIKE)] : []),
    ...stays.map(({ entry, found }) =>
      warn('mass-not-scaled', 'note', because('given as a mass beside fats in shares: it does not grow with the batch', 'typed'), {
        entry: entry.id,
        params: { material: found.name },
      }),
    ),
  ];
};
