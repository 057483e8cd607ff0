import type { Derivation } from '../derivation';
import type { Line } from '../lines';
import type { Planning } from '../warnings/index';
import { lyePerGram, superfatPerGram } from '../chemistry';
import type { PerGram } from '#lib/soap/poured/per-gram';
import { computedFrom, derivation, n, typedFrom } from './shown';

const POINTS_OF: Readonly<Record<string, string>> = {
  superfat: 'what moves the superfat by 0.3 points',
  lye: 'what moves the lye by 0.3 points',
  'fragrance-limit': 'half the room to the certificates’ limit',
  share: 'one part in a hundred of the line, two of an extra',
  scale: 'the least the scale tells apart: wider than is wished',
};

const g = (milligrams: number | null): number => (milligrams ?? 0) / 1000;

/** Why a line may be off by so much, and what its scale can do. */
export const toleranceDerivations = (planning: Planning): readonly Derivation[] =>
  planning.lines.map((line) => {
    const { plan, figures, scale } = line;
    const { smallest, smallestUsp, r76, neededDivision, couldServe } = figures.scale;
    return derivation({
      id: `tolerance:${plan.id}`,
      value: plan.tolerance / 1000,
      unit: 'g',
      formula: `the narrowest of what superfat, lye, limits and its own share ask, in whole divisions of the scale; here: ${POINTS_OF[figures.tolerance.by] ?? ''}`,
      filled: `wished ± ${n(g(figures.tolerance.wanted), 3)} g, weighed to ± ${n(plan.tolerance / 1000, 3)} g${couldServe.length === 0 && neededDivision !== null ? `; a scale with a division of ${n(g(neededDivision), 2)} g would do` : ''}`,
      inputs: [
        ...effects(planning, line),
        ...(scale?.division == null ? [] : [typedFrom(`division of ${scale.name}`, g(scale.division), 'g', 'Setup, Instruments')]),
        ...(smallest === null
          ? []
          : [
              standard(
                'least it can weigh to this tolerance',
                g(smallest),
                '2·max(s, 0.41 d) ÷ (tolerance ÷ target), the form of USP <41>',
              ),
            ]),
        ...(smallestUsp === null ? [] : [standard('the same at 0.10 %', g(smallestUsp), 'USP <41>; shown, not asked for')]),
        ...(r76 === null
          ? []
          : [standard('permissible error at this load', g(r76), 'OIML R 76, class III in service; a comparison, no claim')]),
      ],
    });
  });

const standard = (name: string, value: number, source: string) => ({ name, value, unit: 'g', source, grade: 'standard' as const });

const effects = ({ balance }: Planning, { at }: Line) => {
  const per = balance.per[at] as PerGram;
  const [superfat, lye] = [100 * superfatPerGram(balance, per), 100 * lyePerGram(balance, per)];
  return [
    ...(superfat === 0 ? [] : [computedFrom('superfat for one gram more', superfat, 'points', 'superfat')]),
    ...(lye === 0 ? [] : [computedFrom('lye concentration for one gram more', lye, 'points', 'lye-concentration')]),
  ];
};
