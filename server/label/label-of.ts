import type { LabelMaterial, LabelPage } from '#lib/protocol/label';
import { wordsOf } from '#lib/record/words';
import { as } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import { labelText } from '#lib/words/label/label-text';
import type { BarsState } from '#lib/work/bars/index';
import type { BatchState } from '#lib/work/batch/index';
import { materialsById } from '#lib/work/formula/index';
import type { Lot, Material, Preparation } from '#lib/work/formula/index';
import { labelAllergens } from '#lib/work/label/allergens';
import { euChecklist, usChecklist } from '#lib/work/label/checklist';
import { barsComposition, glycerinFormed } from '#lib/work/label/composition';
import { A4, LETTER, placesOn } from '#lib/work/label/draw';
import { labelParts, type LabelWorkshop } from '#lib/work/label/from-mould';
import { ingredientList } from '#lib/work/label/ingredients';
import { heightFor, layLabel, type LabelLayout } from '#lib/work/label/layout';
import { lightestOf, type Mixture } from '#lib/work/label/mixtures';
import { isStatable } from '#lib/work/label/net-statement';
import type { LabelPart } from '#lib/work/label/parts';
import { NO_LABEL_SETTINGS, type LabelSettings } from '#lib/work/label/settings';
import { contextOf } from '#lib/work/shelf/context';
import { newest } from '#lib/work/shelf/shelf';
import type { Noun, Shelf } from '#lib/work/shelf/shelf';
import type { Running } from '../http/deps';
import { foldBatch } from '../bench/restore';
import { undrawn } from '../export/label/faces-in';

/** A label as it is told and as it is drawn. */
export interface Label {
  readonly page: LabelPage;
  readonly layout: LabelLayout;
  /** What its code holds: the mark, and behind it the words of the record's head once one is signed. */
  readonly code: string;
}

/** A bar that dries out altogether is at its lightest; where nobody knows its water, as much is taken as a batter has at most. */
const MOST_WATER = 0.4;
const MILLION = 1e6;

interface Shop extends LabelWorkshop {
  readonly settings: LabelSettings;
  readonly version: number;
}

const shopOf = (shelf: Shelf): Shop => {
  const find = <T>(noun: Noun, id: string): T | null => (newest(shelf, noun, id)?.document as unknown as T | undefined) ?? null;
  const materials = materialsById(contextOf(shelf, []).materials);
  const kept = newest(shelf, 'label', 'maker');
  const settings = (kept?.document as unknown as LabelSettings | null | undefined) ?? NO_LABEL_SETTINGS;
  const own = (id: string): Material | null => materials.get(id) ?? null;
  return {
    settings,
    version: kept?.version ?? 0,
    material: own,
    preparation: (id) => find<Preparation>('preparation', id),
    lot: (id) => find<Lot>('lot', id),
    names: (id) => {
      const [typed, material] = [Object.hasOwn(settings.names, id) ? settings.names[id] : undefined, own(id)];
      return {
        inci: typed?.inci ?? material?.inci ?? null,
        saponifiedAs: typed?.saponifiedAs ?? material?.saponifiedAs ?? null,
      };
    },
  };
};

const materialsOf = (parts: readonly LabelPart[], proposed: readonly string[]): readonly LabelMaterial[] => {
  const all = new Map<string, LabelMaterial>();
  for (const { material: id, name, inci, saponifiedAs, role } of parts)
    all.set(id, { id, name, inci, saponifiedAs, fat: role === 'fat', proposed: proposed.includes(id) });
  return [...all.values()];
};

const withGlycerin = (parts: readonly LabelPart[], shop: Shop): readonly LabelPart[] => {
  const hydroxides = parts.flatMap(({ material, mass, role }) => {
    const own = shop.material(material);
    return role === 'alkali' ? [{ kind: own?.kind === 'alkali' ? own.hydroxide : ('NaOH' as const), mass }] : [];
  });
  return hydroxides.length === 0 ? parts : [...parts, glycerinFormed(hydroxides)];
};

/** The label of bars of a batch, from what was weighed into their moulds and what the workshop says now of names and of itself. */
const labelFrom = (bars: BarsState, batch: BatchState, shelf: Shelf, head: string | undefined): Omit<Label, 'code'> => {
  const shop = shopOf(shelf);
  const made = barsComposition(batch, bars.moulds, bars.mould.cavities);
  const { materials, from, bound, mixtures } = made;
  const named = labelParts(materials, shop);
  const water = bars.water === null ? MOST_WATER : bars.water / MILLION;
  const dried = (one: Mixture) => {
    const { parts } = labelParts(one.materials, shop);
    return { parts, finished: lightestOf(parts, one, water) };
  };
  // The lot as a whole counts too, so that nothing is told weaker than it is in all of it.
  const whole = dried(made);
  const { finished } = whole;
  const allergens = labelAllergens([whole, ...mixtures.all.map(dried)]);
  const { settings } = shop;
  const all = withGlycerin(named.parts, shop);
  const list = ingredientList(all, { naming: settings.naming, finished, bound: bound === true, allergens });
  // What no label can state is none: older records took any weight.
  const net: Milligrams | null = bars.label !== null && isStatable(bars.label) ? bars.label : null;
  const facts = {
    settings,
    list,
    silent: named.silent.length > 0,
    mark: bars.mark,
    net: net !== null,
    netGrams: net === null ? null : net / 1000,
  };
  const formula = bars.of.formula.name;
  const content = { settings, formula, list, mark: bars.mark, realm: bars.realm, net, poured: bars.poured };
  const [bare, proven] = [content, { ...content, head }].map((one) => layLabel(labelText(one), settings.size)) as [
    LabelLayout,
    LabelLayout,
  ];
  // What the law asks for keeps its room and its letters: the record's head stands below it or not at all.
  const layout = proven.fits && (proven.lettersForUs || !bare.lettersForUs) ? proven : bare;
  const { fits, letters, lettersForUs, netLow } = layout;
  const text = labelText(content);
  const page: LabelPage = {
    id: bars.id,
    mark: bars.mark,
    batch: bars.of.batch,
    formula,
    net,
    settings,
    version: shop.version,
    from,
    bound,
    materials: materialsOf(named.parts, named.proposed),
    list,
    allergens,
    notAlike: mixtures.why,
    silent: named.silent,
    eu: euChecklist(facts),
    us: usChecklist(facts),
    layout: { fits, letters, lettersForUs, netLow },
    needs: fits ? null : heightFor(text, settings.size),
    undrawn: undrawn([text.title, text.purpose ?? '', ...text.paragraphs].join('')),
    onSheet: { a4: placesOn(A4, settings.size).length, letter: placesOn(LETTER, settings.size).length },
  };
  return { page, layout };
};

/** `null`: there are no such bars, or nothing is left of their batch. Throws `StoreProblem` for lines that cannot be read. */
export const labelOf = async ({ bars: desk, store }: Pick<Running, 'bars' | 'store'>, id: string): Promise<Label | null> => {
  const bars = await desk.state(as(id));
  const batch = bars === null ? null : await foldBatch(store.bench, bars.of.batch);
  if (bars === null || batch === null) return null;
  const last = (await store.bench.linesOf(bars.of.batch)).at(-1)?.seq ?? 0;
  const signed = store.proof.covering('bench', last);
  const head = signed === null ? undefined : wordsOf(signed.checkpoint.link);
  return { ...labelFrom(bars, batch, store.shelf.now(), head), code: head === undefined ? bars.mark : `${bars.mark}\n${head}` };
};
