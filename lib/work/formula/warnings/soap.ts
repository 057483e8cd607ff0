import { sumOf } from '#lib/units/sum';
import { isLyeHeavy } from '../chemistry';
import { saturatedOf } from '../figures';
import { numberOf } from '../figure';
import { gramsOf } from '../references';
import type { Warning } from '../warning';
import { because, percent, practice, shown, warn, type Planning } from './warn';

export const soapWarnings = (planning: Planning): readonly Warning[] => [
  ...alkaline(planning),
  ...behaviour(planning),
  ...keeping(planning),
  ...fragrance(planning),
  ...references(planning),
];

const TOO_FAT = 0.15;

const alkaline = ({ figures, facts }: Planning): readonly Warning[] => {
  const { working, low, lyeHeavy } = figures.superfat;
  const said = { derivation: 'superfat' };
  const least = facts.superfatLimits?.[0] ?? 0;
  if (isLyeHeavy(working)) {
    return [
      warn('lye-heavy', 'must', because('more hydroxide than the fats take: never accepted', 'computed'), {
        ...said,
        params: { percent: percent(working) },
      }),
    ];
  }
  const found: Warning[] = [];
  if (low < 0) {
    const why = because('superfat less two standard uncertainties is below zero', 'computed');
    found.push(warn('lye-heavy-possible', 'mind', why, { ...said, params: { low: percent(low), chance: shown(lyeHeavy, 2) } }));
  }
  if (least < 0) {
    const why = because('the limits this formula sets reach below zero', 'typed');
    found.push(warn('lye-heavy-possible', 'must', why, { ...said, params: { low: percent(least), chance: shown(lyeHeavy, 2) } }));
  }
  if (working > TOO_FAT) {
    found.push(
      warn('superfat-high', 'mind', practice('above 15 % a bar stays soft and turns early'), {
        ...said,
        params: { percent: percent(working) },
      }),
    );
  }
  return found;
};

/** Thresholds below are common practice, no source: each says so where it is shown. */
const HEAVY_FRAGRANCE = 0.06;
const WET = 0.25;
const DRY = 0.38;
const CLAY = 0.04;
const SWEET = 0.02;
const SOFT = 0.3;

const behaviour = ({ whole, figures, facts, model }: Planning): readonly Warning[] => {
  const { fats } = whole;
  const of = (what: 'sugar' | 'solids' | 'colourant' | 'fragrance'): number =>
    sumOf(whole.all.inert, (one) => (one.what === what ? one.mass : 0)) / fats;
  const [sweet, scented, coloured] = [of('sugar') + of('solids'), of('fragrance'), of('colourant')];
  const { lyeConcentration } = figures;
  const found: Warning[] = [];
  if (lyeConcentration < WET) {
    found.push(
      warn('likely-to-separate', 'mind', practice('lye below 25 % traces slowly and may part'), {
        params: { percent: percent(lyeConcentration), of: 'lye' },
        derivation: 'lye-concentration',
      }),
    );
  }
  if (scented > HEAVY_FRAGRANCE) {
    found.push(
      warn('likely-to-separate', 'mind', practice('more than 6 % of fragrance on the oils may weep'), {
        params: { percent: percent(scented), of: 'fragrance' },
      }),
    );
  }
  if (lyeConcentration > DRY || coloured > CLAY) {
    const why = practice('strong lye, or much clay, cracks a bar that heats as it sets');
    found.push(warn('likely-to-crack', 'mind', why, { params: { percent: percent(lyeConcentration), clay: percent(coloured) } }));
  }
  if (sweet > SWEET) {
    found.push(
      warn('likely-to-overheat', 'mind', practice('more than 2 % of sugar and milk solids on the oils heats the mould'), {
        params: { percent: percent(sweet) },
      }),
    );
  }
  const saturated = saturatedOf(whole);
  if (saturated !== null && saturated < SOFT) {
    const why = practice('below 30 % of lauric to stearic acid a bar dents at unmoulding: leave it longer');
    found.push(warn('soft-at-unmoulding', 'note', why, { params: { percent: percent(saturated) } }));
  }
  const { low, setsAt } = facts.joining;
  const hard = model.items.filter(({ found: { makeup } }) => makeup.fats.some(({ melting }) => melting !== null && melting.high > low));
  if (hard.length > 0 && setsAt === null) {
    const names = hard.map(({ found: { name } }) => name).join(', ');
    found.push(
      warn('false-trace', 'note', practice('fats that set above the window’s foot pass for trace; note where your blend sets'), {
        params: { fats: names, celsius: low },
      }),
    );
  }
  return found;
};

const IODINE = 70;
const POLYUNSATURATED = 0.15;

const keeping = ({ figures }: Planning): readonly Warning[] => {
  const { iodine, linoleicAndLinolenic } = figures;
  const early = (iodine !== null && iodine > IODINE) || (linoleicAndLinolenic !== null && linoleicAndLinolenic > POLYUNSATURATED);
  if (!early) return [];
  const params = {
    ...(iodine === null ? {} : { iodine: shown(iodine) }),
    ...(linoleicAndLinolenic === null ? {} : { polyunsaturated: percent(linoleicAndLinolenic) }),
  };
  return [
    warn('early-rancidity', 'mind', practice('iodine value above 70, or more than 15 % of linoleic and linolenic acid'), {
      params,
      derivation: 'iodine',
    }),
  ];
};

const fragrance = ({ figures, model, whole }: Planning): readonly Warning[] => {
  const { verdict } = figures.fragrance;
  const derivation = { derivation: 'fragrance-limit' };
  const found: Warning[] = [];
  if (verdict.kind === 'over') {
    const why = because(
      'sum of shares of the certificates’ limits in the driest bar: within 1 is sufficient, not necessary',
      'certificate',
    );
    found.push(
      warn('over-fragrance-limit', 'must', why, { ...derivation, params: { sum: shown(verdict.sum), most: shown(verdict.most) } }),
    );
  }
  if (verdict.kind === 'not-known' && verdict.without.length > 0) {
    const why = because('a limit is the supplier’s to state, for a finished rinse-off product; none is shipped', 'certificate');
    found.push(warn('fragrance-limit-unknown', 'mind', why, { params: { without: verdict.without.join(', ') } }));
  }
  for (const [at, item] of model.items.entries()) {
    const { material, lot } = item.found;
    const typed = material?.kind === 'fragrance' ? (lot?.certificate?.vanillin ?? material.vanillin?.value) : undefined;
    const vanillin = typed === undefined ? null : numberOf(typed);
    if (vanillin !== null && vanillin > 0) {
      const why = practice('vanillin turns a bar brown for some days after cutting');
      const params = { fragrance: item.found.name, vanillin, ofBatter: percent(((whole.grams[at] ?? 0) * vanillin) / 100 / whole.batter) };
      found.push(warn('browning', 'note', why, { entry: item.entry.id, params }));
    }
  }
  return found;
};

/** What an assessment or notification allows of each material, held against the plan. */
const references = ({ allowed, context, model, whole }: Planning): readonly Warning[] =>
  allowed.flatMap(({ kind, number, material, low, high }): readonly Warning[] => {
    const share = (100 * gramsOf(model, whole.grams, context.preparations, material)) / whole.batter;
    if (share >= low && share <= high) return [];
    const name = [...context.materials, ...context.preparations].findLast(({ id }) => id === material)?.name ?? material;
    return [
      warn('outside-reference', 'must', because(`${kind.replace('-', ' ')} ${number}`, 'typed'), {
        entry: model.items.find(({ found }) => found.id === material)?.entry.id,
        params: { material: name, percent: percent(share / 100), low, high, number },
      }),
    ];
  });
