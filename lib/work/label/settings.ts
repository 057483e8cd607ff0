import * as z from 'zod/mini';
import { oneOf } from '../words';
import { id, name, note } from '../formula/schema/words';
import type { Naming } from './parts';

/** Until when a bar is good: months after opening, months from pouring, or nothing said. */
export type Durability =
  | { readonly kind: 'none' }
  | { readonly kind: 'opened'; readonly months: number }
  | { readonly kind: 'best-before'; readonly months: number };

/** The names of one material on a label. */
export interface MaterialNames {
  readonly inci: string | null;
  readonly saponifiedAs: string | null;
}

/** What this maker's labels say beside the ingredients. One document, `id` "maker". */
export interface LabelSettings {
  readonly id: 'maker';
  /** What it is called on the front; empty: as the formula is called. */
  readonly title: string;
  /** Responsible person, or name and place of business. The maker's own firm: a name that is published on every bar. */
  readonly responsible: { readonly name: string; readonly address: string };
  /** Country of origin, for what is imported; `null`: not said. */
  readonly origin: string | null;
  /** What it is for, where that is not plain: "soap for hands and body". */
  readonly purpose: string | null;
  readonly durability: Durability;
  readonly cautions: readonly string[];
  readonly naming: Naming;
  /** Sold, labelled and represented as soap only (21 CFR 701.20); `null`: nobody has looked. */
  readonly onlySoap: boolean | null;
  /** Whether it bears the estimated sign: then it is packed by the average system's rules. */
  readonly estimated: boolean;
  /** Width and height of one label, mm. */
  readonly size: { readonly width: number; readonly height: number };
  /** Names by id of the material, before what the material itself says: for what stands in the catalogue. */
  readonly names: Readonly<Record<string, MaterialNames>>;
}

/** What a maker who has said nothing has: the usual cautions stand, the rest is asked for. */
export const NO_LABEL_SETTINGS: LabelSettings = {
  id: 'maker',
  title: '',
  responsible: { name: '', address: '' },
  origin: null,
  purpose: null,
  durability: { kind: 'none' },
  cautions: ['Keep out of the eyes; rinse with water if it gets there.', 'For external use.'],
  naming: 'as-added',
  onlySoap: null,
  estimated: false,
  size: { width: 90, height: 60 },
  names: {},
};

const months = z.int().check(z.gte(1), z.lte(120));
const millimetres = z.int().check(z.gte(20), z.lte(280));
const MOST_CAUTIONS = 12;

export const labelSettingsSchema: z.ZodMiniType<LabelSettings> = z.strictObject({
  id: z.literal('maker'),
  title: name,
  responsible: z.strictObject({ name, address: note }),
  origin: z.nullable(name),
  purpose: z.nullable(name),
  durability: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('none') }),
    z.strictObject({ kind: z.literal('opened'), months }),
    z.strictObject({ kind: z.literal('best-before'), months }),
  ]),
  cautions: z.array(note).check(z.maxLength(MOST_CAUTIONS)),
  naming: oneOf<Naming>({ 'as-added': true, 'as-soap': true }),
  onlySoap: z.nullable(z.boolean()),
  estimated: z.boolean(),
  size: z.strictObject({ width: millimetres, height: millimetres }),
  names: z.record(id, z.strictObject({ inci: z.nullable(name), saponifiedAs: z.nullable(name) })),
});
