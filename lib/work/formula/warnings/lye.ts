import { pureMass } from '#lib/soap/alkali';
import { solubility } from '#lib/soap/lye/solubility';
import { sumOf } from '#lib/units/sum';
import { waterOf } from '#lib/soap/batter';
import { gradeOf } from '../figure';
import { milkLimitOf } from '../joining-plan';
import { isStockAlone } from '../places';
import { standsHeat } from '../vessels';
import type { Warning } from '../warning';
import { because, percent, practice, shown, warn, type Planning } from './warn';

/** Common practice, no source. */
const USUAL = { low: 0.25, high: 0.4 } as const;
/** Lye of a third boils near 118 °C, from memory; weaker lye sooner. */
const BOILS = 110;

export const lyeWarnings = (planning: Planning): readonly Warning[] => [...strength(planning), ...dissolves(planning), ...heat(planning)];

const strength = ({ figures }: Planning): readonly Warning[] => {
  const { lyeConcentration: c } = figures;
  if (c >= USUAL.low && c <= USUAL.high) return [];
  return [
    warn('lye-strength-unusual', 'mind', practice('lye of 25 to 40 % is usual'), {
      params: { percent: percent(c), low: 100 * USUAL.low, high: 100 * USUAL.high },
      derivation: 'lye-concentration',
    }),
  ];
};

/** Each hydroxide against its share, by moles, of the water. */
const dissolves = ({ whole, balance, facts }: Planning): readonly Warning[] => {
  const water = waterOf(whole.jug);
  return (['NaOH', 'KOH'] as const).flatMap((kind): readonly Warning[] => {
    const mass = sumOf(whole.jug.alkalis, (one) => (one.kind === kind ? pureMass(one) : 0));
    const share = kind === 'NaOH' ? balance.naohShare : 1 - balance.naohShare;
    if (mass === 0 || water === 0) return [];
    const { celsius } = facts.room;
    const answer = solubility(kind, mass, water * share, celsius);
    if (answer.kind === 'dissolved') return [];
    const why = because(answer.source.text, gradeOf(answer.source));
    const params = { hydroxide: kind, celsius, phase: answer.phase };
    return answer.kind === 'crystallises'
      ? [warn('crystallises', 'must', why, { params })]
      : [warn('solubility-unknown', 'mind', why, { params })];
  });
};

const heat = ({ model, whole, places, figures, facts }: Planning): readonly Warning[] => {
  const dry = whole.jug.alkalis.some(({ dissolved, mass }) => !dissolved && mass > 0);
  const stock = whole.jug.alkalis.some(({ dissolved, mass }) => dissolved && mass > 0);
  const { mixingPeak: peak } = figures;
  const found: Warning[] = [];
  if (stock && !isStockAlone(model.items)) {
    found.push(warn('dilution-heat-unknown', 'mind', because('no heat of dilution is tabulated here for strong stock lye', 'computed')));
  }
  if (dry && peak === null) {
    const why = because('the heat of dissolving NaOH is tabulated to 42.5 % only; unknown is not a number', 'handbook');
    found.push(
      warn('heat-unknown', 'mind', why, { params: { percent: percent(figures.lyeConcentration) }, derivation: 'lye-concentration' }),
    );
  }
  const milk = milkLimitOf(model, facts);
  if (milk !== null) {
    const params = { celsius: milk, ...(peak === null ? {} : { peak: shown(peak.value) }) };
    found.push(warn('milk-scorches', 'mind', practice('milk and sugar scorch in hot lye: frozen, slowly, on ice'), { params }));
  }
  const { jug } = places;
  if (jug?.material === 'glass' && (dry || stock)) {
    found.push(warn('vessel-glass', 'mind', practice('lye etches glass, and heat cracks it'), { params: { vessel: jug.name } }));
  }
  if (!dry || peak === null || jug === null) return found;
  const upper = peak.value + 2 * peak.u;
  // To a tenth as its row shows it; the upper figure upwards, so that it never reads as one that the jug is made for.
  const params = {
    peak: Number(peak.value.toFixed(1)),
    upper: Math.ceil(10 * upper) / 10,
    vessel: jug.name,
    ...(jug.rating === null ? {} : { rating: Number(jug.rating) }),
  };
  const why = because(peak.source.text, 'computed');
  const stands = standsHeat(jug, upper);
  if (stands === false) found.push(warn('peak-over-rating', 'must', why, { params, derivation: 'mixing-peak' }));
  if (stands === null) found.push(warn('rating-unknown', 'mind', why, { params, derivation: 'mixing-peak' }));
  if (peak.value >= BOILS)
    found.push(
      warn('lye-boils', 'mind', because('lye of a third boils near 118 °C, weaker lye sooner', 'from memory'), {
        params,
        derivation: 'mixing-peak',
      }),
    );
  return found;
};
