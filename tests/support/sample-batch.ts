import { createHash } from 'node:crypto';
import type { Append, Json } from '#lib/record/journal';
import { as } from '#lib/units/id';
import type { LineId, VesselId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import { celsius, milliKelvin } from '#lib/units/temperature';
import type { Draft, Entry, LinePlan, Plan, Realm, Weighed } from '#lib/work/batch/index';

/** A whole small batch as the appends that record it: what a store sees of one afternoon. Deterministic. */

const OILS = as<VesselId>('oils');
const lineId = (n: number): LineId => as(`line-${n}`);

const planOf = (lines: number): Plan => ({
  formula: { id: 'hearth', name: 'Hearth bar', version: 3 },
  vessels: [{ id: OILS, name: 'oils pot', use: 'oils', material: 'stainless', empty: mg(812_000), brimMl: 4000 }],
  lines: Array.from({ length: lines }, (_, n): LinePlan => linePlan(n)),
  joining: {
    window: { low: celsius(38), high: celsius(43) },
    allowedApart: milliKelvin(6000),
    apartLevel: 'hold',
    oilsSetAt: null,
    milkLimit: null,
    source: 'common practice, no source',
  },
});

const linePlan = (n: number): LinePlan => ({
  id: lineId(n),
  material: { id: as(`oil-${n}`), name: `oil ${n}`, class: 'liquid-oil' },
  phase: 'oils',
  target: mg(100_000 + 1000 * n),
  tolerance: mg(1000),
  upper: null,
  vessel: OILS,
  scale: 'main',
  mode: 'gain',
  canWait: false,
  lot: { id: as(`lot-${n}`), mark: `26-${n}` },
  superfatPerGram: null,
});

const weighed = (n: number, net: number, strip: string): Weighed => ({
  gross: mg(812_000 + net),
  zero: mg(812_000),
  net: mg(net),
  text: '   912.40',
  unit: 'g',
  step: mg(10),
  raw: 'U1QsR1MsKzAwMDkxMi40MCAgZw0K',
  instrument: as('scale-main'),
  check: null,
  episode: n + 1,
  strip,
});

/** Bytes of a pour as long as a minute's strip: they do not repeat, so nothing packs them. */
const stripOf = (batch: string, n: number, bytes: number): Append['blobs'][number] => {
  const parts: Uint8Array[] = [];
  for (let i = 0; i * 32 < bytes; i += 1) parts.push(createHash('sha256').update(`${batch} ${n} ${i}`).digest());
  const whole = Uint8Array.from(parts.flatMap((part) => [...part])).slice(0, bytes);
  return { sha256: createHash('sha256').update(whole).digest('hex'), kind: 'strip', bytes: whole };
};

export interface SampleBatch {
  readonly batch: string;
  readonly realm?: Realm;
  readonly lines?: number;
  readonly stripBytes?: number;
  /** Line whose first weight is crossed out and weighed again. */
  readonly struckLine?: number | null;
  readonly close?: boolean;
  readonly mark?: string;
}

/** One append per decision: start; per line its vessel, then weight and closing of the line with the strip, then the lift; the end. */
export const sampleBatch = ({
  batch,
  realm = 'practice',
  lines = 6,
  stripBytes = 4000,
  struckLine = null,
  close = true,
  mark = `${batch} mark`,
}: SampleBatch): Append[] => {
  const appends: Append[] = [];
  let version = 0;
  const add = (drafts: readonly Draft[], blobs: Append['blobs'] = []): void => {
    const intent = `${batch}-intent-${appends.length}`;
    const entries = drafts.map((draft) => {
      version += 1;
      return entryOf({ batch, realm, version, intent }, draft);
    });
    appends.push({ batch, entries, intent: { id: intent, answer: { ok: true, seq: version, version, repeated: false } }, blobs });
  };

  add([{ kind: 'batch-started', body: { mark, plan: planOf(lines), bench: 'bench 1', uncheckedScales: [as('scale-main')] } }]);
  let actual = 0;
  for (let n = 0; n < lines; n += 1) {
    const line = lineId(n);
    const net = 100_000 + 1000 * n + 200;
    add([
      {
        kind: 'vessel-set',
        body: { vessel: OILS, line, instrument: as('scale-main'), gross: mg(812_000), empty: mg(812_000), episode: n + 1 },
      },
    ]);
    const strip = stripOf(batch, n, stripBytes);
    const accept: Draft = {
      kind: 'weight-accepted',
      body: {
        line,
        vessel: OILS,
        weighed: weighed(n, net, strip.sha256),
        how: 'by-itself',
        part: false,
        lot: { id: as(`lot-${n}`), mark: `26-${n}` },
      },
    };
    if (n === struckLine) {
      add([accept], [strip]);
      add([{ kind: 'struck', body: { entry: as(`${batch}-${version}`), reason: 'something-on-the-pan', note: '' } }]);
      add([
        {
          kind: 'weight-typed',
          body: { line, vessel: OILS, typed: { net: mg(net), text: String(net / 1000), unit: 'g' }, part: false, lot: null },
        },
      ]);
      add([{ kind: 'line-closed', body: { line, outcome: 'within', actual: mg(net) } }]);
    } else {
      add([accept, { kind: 'line-closed', body: { line, outcome: 'within', actual: mg(net) } }], [strip]);
    }
    add([{ kind: 'vessel-lifted', body: { vessel: OILS, gross: mg(812_000 + net) } }]);
    actual += net;
  }
  if (close) add([{ kind: 'closed', body: { actual: mg(actual), lines: [] } }]);
  return appends;
};

const entryOf = (at: { batch: string; realm: Realm; version: number; intent: string }, draft: Draft): Append['entries'][number] => {
  const id = `${at.batch}-${at.version}`;
  const entry = {
    ...draft,
    id: as(id),
    batch: as(at.batch),
    version: at.version,
    realm: at.realm,
    v: 1,
    by: as('person-1'),
    via: 'bench',
    intent: as(at.intent),
    boot: as('boot-1'),
    mono: 1000 * at.version,
    wall: 1_760_000_000_000 + 1000 * at.version,
    offsetMin: 120,
  } as Entry;
  return { id, batch: at.batch, version: at.version, kind: draft.kind, value: entry as unknown as Json };
};
