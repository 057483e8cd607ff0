import type { LabelRole } from './parts';
import type { MaterialNames } from './settings';

/**
 * INCI names that catalogue entries usually have, all from memory: a label shows them as proposed until the maker has typed or confirmed
 * them by the supplier's papers. By id: name as added, and for fats the name as sodium soap (from memory too; with potash it is another).
 */
const FATS: Readonly<Record<string, readonly [inci: string, soap: string]>> = {
  olive: ['Olea Europaea Fruit Oil', 'Sodium Olivate'],
  coconut: ['Cocos Nucifera Oil', 'Sodium Cocoate'],
  palm: ['Elaeis Guineensis Oil', 'Sodium Palmate'],
  'palm-kernel': ['Elaeis Guineensis Kernel Oil', 'Sodium Palm Kernelate'],
  babassu: ['Orbignya Oleifera Seed Oil', 'Sodium Babassuate'],
  castor: ['Ricinus Communis Seed Oil', 'Sodium Castorate'],
  sunflower: ['Helianthus Annuus Seed Oil', 'Sodium Sunflowerate'],
  'sunflower-high-oleic': ['Helianthus Annuus Seed Oil', 'Sodium Sunflowerate'],
  rapeseed: ['Canola Oil', 'Sodium Canolate'],
  'rice-bran': ['Oryza Sativa Bran Oil', 'Sodium Rice Branate'],
  shea: ['Butyrospermum Parkii Butter', 'Sodium Shea Butterate'],
  'shea-refined': ['Butyrospermum Parkii Butter', 'Sodium Shea Butterate'],
  cocoa: ['Theobroma Cacao Seed Butter', 'Sodium Cocoa Butterate'],
  mango: ['Mangifera Indica Seed Butter', 'Sodium Mangoate'],
  almond: ['Prunus Amygdalus Dulcis Oil', 'Sodium Sweet Almondate'],
  avocado: ['Persea Gratissima Oil', 'Sodium Avocadoate'],
  grapeseed: ['Vitis Vinifera Seed Oil', 'Sodium Grapeseedate'],
  hazelnut: ['Corylus Avellana Seed Oil', 'Sodium Hazelnutate'],
  macadamia: ['Macadamia Ternifolia Seed Oil', 'Sodium Macadamiaseedate'],
  'apricot-kernel': ['Prunus Armeniaca Kernel Oil', 'Sodium Apricot Kernelate'],
  hemp: ['Cannabis Sativa Seed Oil', 'Sodium Hempseedate'],
  sesame: ['Sesamum Indicum Seed Oil', 'Sodium Sesameseedate'],
  soya: ['Glycine Soja Oil', 'Sodium Soyate'],
  lard: ['Lard', 'Sodium Lardate'],
  tallow: ['Tallow', 'Sodium Tallowate'],
  beeswax: ['Cera Alba', 'Sodium Beeswax'],
  'stearic-acid': ['Stearic Acid', 'Sodium Stearate'],
  'lauric-acid': ['Lauric Acid', 'Sodium Laurate'],
  'oleic-acid': ['Oleic Acid', 'Sodium Oleate'],
};

const REST: Readonly<Record<string, string>> = {
  'sodium-hydroxide': 'Sodium Hydroxide',
  'potassium-hydroxide': 'Potassium Hydroxide',
  water: 'Aqua',
  'cow-milk': 'Lac',
  'goat-milk': 'Caprae Lac',
  honey: 'Mel',
  'aloe-juice': 'Aloe Barbadensis Leaf Juice',
  'citric-anhydrous-acid': 'Citric Acid',
  'citric-monohydrate-acid': 'Citric Acid',
  'lactic-acid': 'Lactic Acid',
  sugar: 'Sucrose',
  salt: 'Sodium Chloride',
  'sodium-lactate': 'Sodium Lactate',
  'sodium-citrate': 'Sodium Citrate',
  'ground-oats': 'Avena Sativa Kernel Flour',
  'oat-bran': 'Avena Sativa Bran',
  'poppy-seed': 'Papaver Somniferum Seed',
  'nettle-powder': 'Urtica Dioica Leaf Powder',
  'calendula-petals': 'Calendula Officinalis Flower',
  pumice: 'Pumice',
  kaolin: 'Kaolin',
  'charcoal-powder': 'Charcoal Powder',
  'titanium-dioxide': 'CI 77891',
  'zinc-oxide': 'CI 77947',
  'iron-oxide-black': 'CI 77499',
  'iron-oxide-red': 'CI 77491',
  'iron-oxide-yellow': 'CI 77492',
  'chromium-oxide-green': 'CI 77288',
  'ultramarine-blue': 'CI 77007',
  'lavender-oil': 'Lavandula Angustifolia Oil',
  'rosemary-oil': 'Rosmarinus Officinalis Leaf Oil',
  'cedarwood-oil': 'Cedrus Atlantica Bark Oil',
  'peppermint-oil': 'Mentha Piperita Oil',
  'clary-sage-oil': 'Salvia Sclarea Oil',
  'patchouli-oil': 'Pogostemon Cablin Oil',
  'juniper-oil': 'Juniperus Communis Fruit Oil',
  'tea-tree-oil': 'Melaleuca Alternifolia Leaf Oil',
  'eucalyptus-oil': 'Eucalyptus Globulus Leaf Oil',
  'geranium-oil': 'Pelargonium Graveolens Oil',
  'fir-needle-oil': 'Abies Sibirica Oil',
};

const has = <T>(of: Readonly<Record<string, T>>, key: string): T | null => (Object.hasOwn(of, key) ? (of[key] ?? null) : null);

/** What a composition of fragrance is called whatever is in it (Art. 19(1)(g) of the EU's cosmetics regulation, from memory). */
const COMPOSITION = 'Parfum';

/** What is proposed for a catalogue entry, and for a fragrance that is none of it; nulls where nothing is. */
export const usualNames = (material: string, role: LabelRole): MaterialNames => {
  const fat = has(FATS, material);
  return fat === null
    ? { inci: has(REST, material) ?? (role === 'fragrance' ? COMPOSITION : null), saponifiedAs: null }
    : { inci: fat[0], saponifiedAs: fat[1] };
};
