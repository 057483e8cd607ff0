import type { FatKind } from '../fat-portion';
import type { ProfileRange } from '../fatty-acid';
import type { Source, Sourced, SourcedRange } from '../source';
import type { KnownDensity } from '../volume';

/** The value to compute with, inside the range, and why that one. */
export interface WorkingValue {
  readonly value: number;
  readonly reason: string;
}

/** What we know of a fat, butter or wax by its name. A lot's own certificate goes before all of it. */
export interface Fat {
  readonly id: string;
  readonly name: string;
  readonly kind: FatKind;
  /** Saponification value, mg KOH/g. */
  readonly sv: SourcedRange;
  readonly working: WorkingValue;
  /** g I₂/100 g. */
  readonly iodine: SourcedRange | null;
  /** Most that takes no alkali, as a mass fraction; for a wax what stays as alcohol and hydrocarbon. */
  readonly unsaponifiable: Sourced | null;
  /** Acid value of a material sold with acids free in it, mg KOH/g. */
  readonly acidValue: SourcedRange | null;
  readonly fattyAcids: { readonly ranges: ProfileRange; readonly source: Source } | null;
  /** Melted, g/cm³. */
  readonly density: KnownDensity;
  /** °C; `null` where it is liquid in any workshop. */
  readonly melting: SourcedRange | null;
  /** What a maker should know before trusting the figures. */
  readonly note: string | null;
}

export const CODEX_210: Source = { text: 'Codex CXS 210-1999 (as amended to 2022), Tables 1 and 2', grade: 'B' };
export const CODEX_210_MEMORY: Source = { ...CODEX_210, grade: 'memory' };
export const HANDBOOKS: Source = { text: 'handbooks and suppliers’ specifications', grade: 'memory' };
export const MERCK: Source = { text: 'Merck Index monograph text', grade: 'B' };

export const range = (low: number, high: number, source: Source): SourcedRange => ({ low, high, source });
export const most = (value: number, source: Source): Sourced => ({ value, source });
/** Melted density, g/cm³ at °C, from memory: relative densities of the standards' tables. */
export const density = (value: number, celsius: number): KnownDensity => ({
  value,
  celsius,
  source: { text: 'relative densities of the standards’ tables and handbooks', grade: 'memory' },
});
export const melting = (low: number, high: number): SourcedRange => ({ low, high, source: HANDBOOKS });

export const MIDDLE = 'middle of the range';
export const BY_ACIDS = 'what its usual fatty acids come to, inside the range';

type Given = Pick<Fat, 'sv' | 'density'> & Partial<Omit<Fat, 'id' | 'name' | 'sv' | 'density' | 'working'>>;

/** A catalogue entry; what is not given is not known. */
export const fat = (id: string, name: string, working: WorkingValue, given: Given): Fat => ({
  id,
  name,
  kind: 'triglyceride',
  working,
  iodine: null,
  unsaponifiable: null,
  acidValue: null,
  fattyAcids: null,
  melting: null,
  note: null,
  ...given,
});

/** A catalogue entry that rests on memory throughout. Fatty acids are typical values, % of total. */
export const recalled = (
  id: string,
  name: string,
  sv: readonly [low: number, working: number, high: number],
  fattyAcids: Readonly<Partial<Record<keyof ProfileRange, number>>>,
  given: Pick<Fat, 'density'> & Partial<Omit<Fat, 'id' | 'name' | 'sv' | 'working' | 'fattyAcids'>>,
): Fat => {
  const [low, value, high] = sv;
  const ranges = Object.fromEntries(Object.entries(fattyAcids).map(([acid, share]) => [acid, [share, share] as const]));
  const source = HANDBOOKS;
  return fat(
    id,
    name,
    { value, reason: 'usual of what handbooks give' },
    { sv: range(low, high, source), fattyAcids: { ranges, source }, ...given },
  );
};
