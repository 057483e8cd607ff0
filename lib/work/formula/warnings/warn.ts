import type { PlanContext } from '../context';
import type { PlanFigures, Sizing } from '../answer';
import type { Balance } from '../chemistry';
import type { Facts } from '../facts';
import type { FigureGrade } from '../figure';
import type { Formula } from '../formula';
import type { Line } from '../lines';
import type { Model } from '../model';
import type { Places } from '../places';
import type { Allowed } from '../references';
import type { Warning, WarningCode, WarningLevel } from '../warning';
import type { Whole } from '../whole';

/** Everything a warning may look at. */
export interface Planning {
  readonly formula: Formula;
  /** What its papers allow, read. */
  readonly allowed: readonly Allowed[];
  readonly context: PlanContext;
  readonly model: Model;
  readonly whole: Whole;
  readonly balance: Balance;
  readonly facts: Facts;
  readonly figures: PlanFigures;
  readonly sizing: Sizing | null;
  readonly places: Places;
  readonly lines: readonly Line[];
}

export type Because = Warning['because'];

export const because = (text: string, grade: FigureGrade): Because => ({ text, grade });
/** A rule of the trade. */
export const practice = (text: string): Because => because(text, 'common practice');

interface More {
  readonly entry?: string | undefined;
  readonly params?: Warning['params'];
  readonly derivation?: string;
}

export const warn = (code: WarningCode, level: WarningLevel, why: Because, more: More = {}): Warning => ({
  code,
  level,
  entry: more.entry ?? null,
  params: more.params ?? {},
  because: why,
  derivation: more.derivation ?? null,
});

/** For a person: enough digits to act on. */
export const shown = (value: number, digits = 3): number => Number(value.toPrecision(digits));
export const percent = (fraction: number): number => Number((100 * fraction).toFixed(2));
