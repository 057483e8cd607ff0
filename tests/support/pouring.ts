import { as } from '#lib/units/id';
import type { InstrumentId } from '#lib/units/id';
import { mg, type Milligrams } from '#lib/units/mass';
import type { CommandBodies, CommandHead, LinePlan, Plan, Weighed } from '#lib/work/batch/index';
import { hadIn, partTarget, sourcesOf } from '#lib/work/batch/pouring/amounts';
import { emptyOf, mouldsIn, zeroOf } from '#lib/work/batch/pouring/places';
import {
  BATTER_WRONGS,
  mouldContainer,
  partSource,
  PATTERNS,
  PHOTO_SUBJECTS,
  type Container,
  type PlanMould,
  type Source,
} from '#lib/work/batch/pouring/types';
import { line, vessel } from '#lib/work/formula/sample/make';
import { lineId, MAIN, planOf, type BatchRig } from './batch';

const mould = (n: number, name: string, more: Partial<PlanMould> = {}): PlanMould => ({
  n,
  mould: name,
  name,
  brimMl: 1_200,
  mass: mg(700_000),
  pattern: 'plain-pour',
  ...more,
});

const green = (canWait: boolean): LinePlan => ({
  ...line('chlorella', {
    name: 'chlorella',
    class: 'colourant',
    phase: canWait ? 'aside' : 'trace',
    target: 6,
    tolerance: 0.3,
    upper: null,
    vessel: 'green-cup',
    scale: 'fine',
    perGram: 0,
  }),
  canWait,
  part: 'green',
  lot: { id: as('lot-green'), mark: 'CH 2' },
});

/** The plainest sample with a green half and two moulds; its colour is weighed at trace, or before joining. */
export const twoParts = (canWait = false): Plan => {
  const plan = planOf('meadowsweet');
  return {
    ...plan,
    vessels: [...plan.vessels, vessel('green-cup', 'green cup', 'aside', 'glass', 60, 100)],
    lines: [...plan.lines, green(canWait)],
    moulds: [mould(1, 'Log', { pattern: null }), mould(2, 'Tray of six', { pattern: 'drop-swirl' })],
    parts: [{ id: 'green', name: 'Green', ppm: 500_000 }],
  };
};

export const nameAll = (rig: BatchRig): void => {
  for (const { n, pattern } of mouldsIn(rig.now)) if (pattern === null) rig.send('name-pattern', { mould: n, pattern: 'plain-pour' });
};

/** A settled weight against a zero, and the server's own view of it. */
export const poured = (
  rig: BatchRig,
  zero: Milligrams,
  net: number,
  sign: 1 | -1 = 1,
  instrument: InstrumentId = MAIN,
): { readonly weighed: Weighed; readonly head: Partial<CommandHead> } => {
  const settled = rig.settle(instrument, mg(zero + sign * net));
  const weighed = { ...settled, zero, net: mg(net), text: '', unit: 'g', step: mg(100), raw: '', check: null, strip: null } as const;
  return { weighed, head: { observation: rig.seen(settled) } };
};

/** An empty jug or mould set down. */
export const setDown = (rig: BatchRig, container: Container, gross: number): string => {
  const settled = rig.settle(MAIN, mg(gross));
  return rig.code('set-container', { container, ...settled }, { observation: rig.seen(settled) });
};

/** So much of the batter into the jug of a part, by what the jug gains. */
export const partOff = (rig: BatchRig, id: string, grams: number): string => {
  const zero = zeroOf(rig.now, partSource(id))?.zero ?? mg(0);
  const { weighed, head } = poured(rig, zero, grams * 1_000);
  return rig.code('part', { part: id, mass: weighed.net, weighed }, head);
};

/** So much into a mould, by what it gains, from these by turns. */
export const fill = (rig: BatchRig, n: number, grams: number, from: readonly Source[]): string => {
  const zero = zeroOf(rig.now, mouldContainer(n))?.zero ?? mg(0);
  const { weighed, head } = poured(rig, zero, grams * 1_000);
  return rig.code('pour-mould', { mould: n, from, mass: weighed.net, weighed }, head);
};

/** What stayed in the pot or in a jug, weighed back. */
export const weighLeft = (rig: BatchRig, of: Source, grams: number): string => {
  const { weighed, head } = poured(rig, emptyOf(rig.now, of) ?? mg(0), grams * 1_000);
  return rig.code('weigh-left', { of, mass: weighed.net, weighed }, head);
};

/** The next thing an orderly maker does with joined batter, if the plan has parts or moulds. */
export const pourOn = (rig: BatchRig): void => {
  const { plan } = rig.now;
  for (const part of plan.parts ?? []) {
    setDown(rig, partSource(part.id), 210_000);
    partOff(rig, part.id, Math.round(partTarget(rig.now, part).mass / 1_000));
  }
  const open = rig.now.open;
  if (open === lineId('chlorella')) rig.accept(open, rig.line(open).plan.target / 1_000, { how: 'go-on' });
  for (const { n } of mouldsIn(rig.now)) {
    setDown(rig, mouldContainer(n), 350_000);
    fill(rig, n, 300, sourcesOf(rig.now));
  }
  for (const source of sourcesOf(rig.now)) weighLeft(rig, source, 5);
};

interface RandomAct {
  readonly pick: readonly number[];
  readonly mass: number;
  readonly flag: boolean;
}

type Want<K extends keyof CommandBodies> = readonly [K, CommandBodies[K], Partial<CommandHead>?];

const among = <T>(all: readonly T[], n: number): T => all[n % all.length] as T;
const placeOf = (rig: BatchRig, n: number): Container =>
  among<Container>([...mouldsIn(rig.now).map((one) => mouldContainer(one.n)), 'part:green', 'part:none'], n);
const someOf = (rig: BatchRig, n: number): readonly Source[] =>
  n % 3 === 0 ? sourcesOf(rig.now) : [among<Source>(['pot', 'part:green', 'part:none'], n)];

/** What anybody may want of parts and moulds, sensible or not. */
export const POUR_ACTS = {
  'name-pattern': (_rig: BatchRig, { pick: [a = 0, b = 0] }: RandomAct): Want<'name-pattern'> => [
    'name-pattern',
    { mould: a % 4, pattern: among(PATTERNS, b) },
  ],
  'set-container': (rig: BatchRig, { pick: [a = 0], mass }: RandomAct): Want<'set-container'> => {
    const settled = rig.settle(MAIN, mg(mass));
    return ['set-container', { container: placeOf(rig, a), ...settled }, { observation: rig.seen(settled) }];
  },
  part: (rig: BatchRig, { pick: [a = 0], mass, flag }: RandomAct): Want<'part'> => {
    if (flag) return ['part', { part: a % 3 === 0 ? 'none' : 'green', mass: mg(mass) }];
    const { weighed, head } = poured(rig, zeroOf(rig.now, 'part:green')?.zero ?? mg(0), mass, a % 2 === 0 ? 1 : -1);
    return ['part', { part: 'green', mass: weighed.net, weighed }, head];
  },
  'pour-mould': (rig: BatchRig, { pick: [a = 0, b = 0], mass, flag }: RandomAct): Want<'pour-mould'> => {
    const body = { mould: a % 4, from: someOf(rig, b) };
    if (flag) return ['pour-mould', { ...body, mass: mg(mass) }];
    const { weighed, head } = poured(rig, zeroOf(rig.now, mouldContainer(a % 4))?.zero ?? mg(0), mass, b % 2 === 0 ? 1 : -1);
    return ['pour-mould', { ...body, mass: weighed.net, weighed }, head];
  },
  'weigh-left': (rig: BatchRig, { pick: [a = 0], mass, flag }: RandomAct): Want<'weigh-left'> => {
    const of = among(sourcesOf(rig.now), a);
    const most = Math.max(0, hadIn(rig.now, of));
    if (flag) return ['weigh-left', { of, mass: mg(mass) }];
    const { weighed, head } = poured(rig, emptyOf(rig.now, of) ?? mg(0), most === 0 ? mass : mass % most);
    return ['weigh-left', { of, mass: weighed.net, weighed }, head];
  },
  'state-batter': (_rig: BatchRig, { pick: [a = 0] }: RandomAct): Want<'state-batter'> => [
    'state-batter',
    { what: among(BATTER_WRONGS, a) },
  ],
  'ask-photo': (_rig: BatchRig, { pick: [a = 0, b = 0] }: RandomAct): Want<'ask-photo'> => [
    'ask-photo',
    { of: among(PHOTO_SUBJECTS, a), mould: b % 2 === 0 ? null : b % 4 },
  ],
};
