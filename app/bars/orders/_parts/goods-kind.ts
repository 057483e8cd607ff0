import type { Goods } from '#lib/work/orders/documents';
import type { Spec } from '../../../_ui/kept/fields';
import type { Kind } from '../../../_ui/kept/kind';
import { at, gather } from '../../../_ui/kept/typed';
import type { Typed } from '../../../_ui/kept/typed';
import { messages } from '../../messages-orders';

const { goods: words } = messages;
const WRAP = '';
const MOST = 1e9;
const LONGEST_WAIT = 1000;

type Named = { readonly id: string; readonly name: string };

const specsOf = (typed: Typed, materials: readonly Named[]): readonly Spec[] => {
  const material = at(typed, 'material') !== WRAP;
  return [
    {
      kind: 'choice',
      key: 'material',
      label: words.kind,
      options: [[WRAP, words.wrap], ...materials.map(({ id, name }) => [id, name] as const)],
    },
    ...(material ? [] : [{ kind: 'text', key: 'name', label: words.name } as const]),
    { kind: 'number', key: 'pack', label: words.pack(material) },
    { kind: 'number', key: 'price', label: words.price },
    { kind: 'number', key: 'days', label: words.wait },
    ...(material
      ? []
      : [{ kind: 'number', key: 'perBar', label: words.perBar } as const, { kind: 'number', key: 'onHand', label: words.onHand } as const]),
  ];
};

const whole = (text: string | null): number | null => (text === null ? null : Number(text));

const read = (id: string, typed: Typed) => {
  const form = gather(typed);
  const material = at(typed, 'material');
  const isWrap = material === WRAP;
  const document: Goods = {
    id: isWrap ? id : material,
    kind: isWrap ? 'wrap' : 'material',
    name: isWrap ? form.name('name') : '',
    pack: form.number('pack', { above: 0, to: MOST }),
    price: form.number('price', { from: 0, to: MOST }),
    days: whole(form.number('days', { from: 0, to: LONGEST_WAIT, whole: true })),
    perBar: isWrap ? form.number('perBar', { from: 0, to: 100 }) : null,
    onHand: isWrap ? whole(form.number('onHand', { from: -100_000, to: 1_000_000, whole: true })) : null,
  };
  return { document, errors: form.errors, minds: {} };
};

/** Packs, prices and waits. A material's goods bear the material's own id. */
export const goodsKind = (materials: readonly Named[]): Kind<Goods> => {
  const nameOf = ({ id, kind, name }: Goods): string => (kind === 'wrap' ? name : (materials.find((one) => one.id === id)?.name ?? id));
  return {
    noun: 'goods',
    words,
    heads: [
      { name: words.heads.name },
      { name: words.heads.pack, n: true },
      { name: words.heads.price, n: true },
      { name: words.heads.days, n: true },
    ],
    nameOf,
    cells: ({ kind, pack, price, days }) => [
      pack === null ? '' : words.packText(pack, kind === 'material'),
      price ?? '',
      days === null ? '' : String(days),
    ],
    saidOf: (goods) => [nameOf(goods), goods.pack ?? '', goods.price ?? ''].filter((text) => text !== '').join('; '),
    typedOf: (goods) => ({
      material: goods?.kind === 'material' ? goods.id : WRAP,
      name: goods?.name ?? '',
      pack: goods?.pack ?? '',
      price: goods?.price ?? '',
      days: goods?.days == null ? '' : String(goods.days),
      perBar: goods?.perBar ?? '',
      onHand: goods?.onHand == null ? '' : String(goods.onHand),
    }),
    specs: (typed) => specsOf(typed, materials),
    read,
  };
};
