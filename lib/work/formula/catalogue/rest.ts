import { ACID_IDS, acidFacts } from '#lib/soap/acid';
import { hydroxide, type Hydroxide } from '#lib/soap/alkali';
import { LIQUIDS } from '#lib/soap/liquid';
import type { Source } from '#lib/soap/source';
import { otherComponent, type OtherKind } from '#lib/soap/volume';
import { figureFrom, type Figure } from '../figure';
import type { AcidMaterial, AdditiveMaterial, AlkaliMaterial, ColourantMaterial, FragranceMaterial, LiquidMaterial } from '../material';

const PERCENT = '%';
const DEFINED: Source = { text: 'dry and pure by name', grade: 'computed' };
const memory = (text: string): Source => ({ text, grade: 'memory' });

const alkali = (kind: Hydroxide, id: string, name: string): AlkaliMaterial => ({
  kind: 'alkali',
  id,
  name,
  origin: 'catalogue',
  note: null,
  hydroxide: kind,
  form: 'solid',
  purity: null,
  restIsWater: figureFrom(
    100 * hydroxide(kind).restIsWater,
    PERCENT,
    memory('what is not hydroxide: carbonate in sodium hydroxide, water in potassium hydroxide'),
  ),
});

export const ALKALI_MATERIALS: readonly AlkaliMaterial[] = [
  alkali('NaOH', 'sodium-hydroxide', 'Sodium hydroxide'),
  alkali('KOH', 'potassium-hydroxide', 'Potassium hydroxide'),
];

const HEATS: ReadonlySet<string> = new Set(['honey', 'milk-powder', 'milk-powder-skimmed']);

export const LIQUID_MATERIALS: readonly LiquidMaterial[] = LIQUIDS.map((liquid) => {
  const part = (fraction: number): Figure => figureFrom(100 * fraction, PERCENT, liquid.source);
  return {
    kind: 'liquid',
    id: liquid.id,
    name: liquid.name,
    origin: 'catalogue',
    note: HEATS.has(liquid.id) ? 'Stirred in, no liquid to dissolve hydroxide in. Heats the batter.' : null,
    water: part(liquid.fractions.water),
    fat: part(liquid.fractions.fat),
    sugar: part(liquid.fractions.sugar),
    acid: part(liquid.fractions.acid),
    acidAs: liquid.acid,
    fatSv: liquid.fatSv === null ? null : figureFrom(liquid.fatSv, 'mg KOH/g', memory('the fat of this liquid')),
    scorches: liquid.scorches,
  };
});

/** Sold in solution: their strength is asked for. */
const IN_SOLUTION: ReadonlySet<string> = new Set(['lactic', 'acetic']);

export const ACID_MATERIALS: readonly AcidMaterial[] = ACID_IDS.map((acid) => {
  const { name } = acidFacts(acid);
  return {
    kind: 'acid',
    id: `${acid}-acid`,
    name: name.slice(0, 1).toUpperCase() + name.slice(1),
    origin: 'catalogue',
    note: null,
    acid,
    strength: IN_SOLUTION.has(acid) ? null : figureFrom(100, PERCENT, DEFINED),
  };
});

const typicalDensity = (like: OtherKind): Figure => {
  const { value, source } = otherComponent(1, like).density;
  return figureFrom(value, 'g/cm³', source);
};

const additive = (id: string, name: string, like: OtherKind, dissolves: boolean, note: string | null = null): AdditiveMaterial => ({
  kind: 'additive',
  id,
  name,
  origin: 'catalogue',
  note,
  density: typicalDensity(like),
  like,
  dissolves,
});

export const ADDITIVE_MATERIALS: readonly AdditiveMaterial[] = [
  additive('sugar', 'Sugar', 'sugar', true, 'Looks like hydroxide and citric acid. Heats the batter.'),
  additive('salt', 'Table salt', 'salt', true),
  additive('sodium-lactate', 'Sodium lactate, dry', 'salt', true, 'A salt already: takes no alkali.'),
  additive('sodium-citrate', 'Sodium citrate', 'salt', true, 'A salt already: takes no alkali.'),
  additive('ground-oats', 'Ground oats', 'plant-powder', false),
  additive('oat-bran', 'Oat bran', 'plant-powder', false),
  additive('poppy-seed', 'Poppy seed', 'plant-powder', false),
  additive('nettle-powder', 'Nettle leaf, powdered', 'plant-powder', false),
  additive('calendula-petals', 'Calendula petals', 'plant-powder', false),
  additive('pumice', 'Pumice, ground', 'clay', false),
];

const colourant = (id: string, name: string, like: OtherKind): ColourantMaterial => ({
  kind: 'colourant',
  id,
  name,
  origin: 'catalogue',
  note: null,
  density: typicalDensity(like),
});

export const COLOURANT_MATERIALS: readonly ColourantMaterial[] = [
  colourant('green-clay', 'Green clay', 'clay'),
  colourant('kaolin', 'Kaolin', 'clay'),
  colourant('red-clay', 'Red clay', 'clay'),
  colourant('charcoal-powder', 'Charcoal powder', 'plant-powder'),
  colourant('titanium-dioxide', 'Titanium dioxide', 'oxide'),
  colourant('zinc-oxide', 'Zinc oxide', 'oxide'),
  colourant('iron-oxide-black', 'Iron oxide, black', 'oxide'),
  colourant('iron-oxide-red', 'Iron oxide, red', 'oxide'),
  colourant('iron-oxide-yellow', 'Iron oxide, yellow', 'oxide'),
  colourant('chromium-oxide-green', 'Chromium oxide, green', 'oxide'),
  colourant('ultramarine-blue', 'Ultramarine, blue', 'clay'),
  colourant('madder-powder', 'Madder root, powdered', 'plant-powder'),
  colourant('indigo-powder', 'Indigo, powdered', 'plant-powder'),
];

const ESSENTIAL = memory('relative densities of essential oils, typical');

const essential = (id: string, name: string, density: number): FragranceMaterial => ({
  kind: 'fragrance',
  id,
  name,
  origin: 'catalogue',
  note: 'Limit and allergens: from the supplier’s certificate of the lot.',
  density: figureFrom(density, 'g/cm³', ESSENTIAL),
  vanillin: null,
});

export const FRAGRANCE_MATERIALS: readonly FragranceMaterial[] = [
  essential('lavender-oil', 'Lavender oil', 0.885),
  essential('rosemary-oil', 'Rosemary oil', 0.905),
  essential('cedarwood-oil', 'Cedarwood oil, Atlas', 0.935),
  essential('peppermint-oil', 'Peppermint oil', 0.905),
  essential('clary-sage-oil', 'Clary sage oil', 0.9),
  essential('patchouli-oil', 'Patchouli oil', 0.96),
  essential('juniper-oil', 'Juniper berry oil', 0.865),
  essential('tea-tree-oil', 'Tea tree oil', 0.895),
  essential('eucalyptus-oil', 'Eucalyptus oil', 0.915),
  essential('geranium-oil', 'Geranium oil', 0.89),
  essential('fir-needle-oil', 'Fir needle oil', 0.88),
];
