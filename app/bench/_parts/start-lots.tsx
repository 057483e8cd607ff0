'use client';
import { useEffect, useState } from 'react';
import type { PlanList } from '#lib/protocol/http';
import { massText } from '#lib/units/format';
import { sumOf } from '#lib/units/sum';
import { useDisplay } from '../../_live/use';
import { messages } from '../messages';
import { startMessages } from '../messages-start';
import type { LocalCard } from './cards';
import { controls, intend } from './controls';
import { PagesOfCards } from './pages-of-cards';

export type OfferedPlan = PlanList['plans'][number];
export type Lot = OfferedPlan['lots'][string][number];

const { faults } = startMessages;

/** What stands below a lot: why it should not be used, that it goes first, or until when. */
export const lotSub = ({ fault, bestBefore }: Lot, at: number, of: number): string => {
  if (fault !== undefined) return faults[fault];
  const until = bestBefore === undefined ? '' : startMessages.until(bestBefore);
  const first = at > 0 ? '' : of === 1 ? startMessages.only : startMessages.first;
  return [first, until].filter((text) => text !== '').join(', ');
};

/** Lots that the plan names already and should not be used. */
const unfitOf = ({ plan, lots }: OfferedPlan, chosen: Readonly<Record<string, Lot | null>>): readonly string[] =>
  plan.lines.flatMap(({ id, lot }) => {
    const named = chosen[id]?.id ?? lot?.id;
    const found = lots[id]?.find((one) => one.id === named);
    return found?.fault === undefined ? [] : [found.mark];
  });

/** One material at a time: the lot is read from the bag in the hand, not from a list far down a page. Last the bench is ticked as clean. */
export function StartLots({ offered, onLeave }: { readonly offered: OfferedPlan; readonly onLeave: () => void }) {
  const [chosen, setChosen] = useState<Readonly<Record<string, Lot | null>>>({});
  const [cleaned, setCleaned] = useState<readonly string[] | null>(null);
  const [ticks, setTicks] = useState<readonly string[]>([]);
  const lines = offered.plan.lines.filter((line) => line.lot === null);
  const line = lines.find(({ id }) => !(id in chosen));
  const at = Object.keys(chosen).length;
  const back = (): void => {
    if (cleaned !== null) return setCleaned(null);
    const last = lines[at - 1];
    if (last === undefined) return onLeave();
    setChosen(Object.fromEntries(Object.entries(chosen).filter(([id]) => id !== last.id)));
    return undefined;
  };
  const unfit = unfitOf(offered, chosen);
  const start = (): void => {
    const lots = Object.fromEntries(
      Object.entries(chosen).flatMap(([id, lot]) => (lot === null ? [] : [[id, { id: lot.id, mark: lot.mark }] as const])),
    );
    intend({ kind: 'start', plan: offered.id, lots, cleaned: [...(cleaned ?? [])], held: unfit.length > 0 });
  };
  const { lines: all, formula } = offered.plan;
  const mass = massText(
    sumOf(all, ({ target }) => target),
    useDisplay(),
    1000,
  );
  const [what, how] =
    line !== undefined
      ? [startMessages.lotOf(line.material.name), startMessages.lotHow]
      : cleaned === null
        ? [startMessages.clean, startMessages.cleanHow]
        : [startMessages.begin(formula.name), startMessages.beginHow(all.length, mass)];
  useEffect(() => {
    controls.setState({ asking: { what, how } });
    return () => controls.setState({ asking: null });
  }, [what, how]);
  const choose = (id: string, lot: Lot | null): void => setChosen({ ...chosen, [id]: lot });
  const lots = line === undefined ? [] : (offered.lots[line.id] ?? offered.lots[line.material.id] ?? []);
  const tick = (item: string): void => setTicks(ticks.includes(item) ? ticks.filter((one) => one !== item) : [...ticks, item]);
  const cards = ((): LocalCard[] => {
    if (line !== undefined)
      return [
        ...lots.map((lot, index) => ({
          key: `${line.id} ${lot.id}`,
          name: lot.mark,
          sub: lotSub(lot, index, lots.length),
          hold: lot.fault !== undefined,
          take: () => choose(line.id, lot),
        })),
        { key: `${line.id} none`, name: startMessages.skip, sub: startMessages.skipSub, take: () => choose(line.id, null) },
      ];
    const items = startMessages.cleanItems;
    if (cleaned === null)
      return [
        {
          key: 'clean',
          name: startMessages.cleanSkip,
          sub: startMessages.cleanSkipSub(ticks.length, items.length),
          take: () => setCleaned(items.map(({ item }) => item).filter((item) => ticks.includes(item))),
        },
        ...items.map(({ item, name, sub: says }) => ({
          key: item,
          name: ticks.includes(item) ? startMessages.cleanTicked(name) : name,
          sub: says,
          take: () => tick(item),
        })),
      ];
    const without = Object.values(chosen).filter((lot) => lot === null).length;
    const sub = unfit.length > 0 ? startMessages.unfit(unfit) : without > 0 ? startMessages.without(without) : startMessages.ready;
    return [{ key: 'start', name: messages.press.start, sub, hold: unfit.length > 0, take: start }];
  })();
  const key = line?.id ?? (cleaned === null ? 'clean' : 'start');
  return <PagesOfCards key={key} cards={cards} more={startMessages.moreLots} pageWords={startMessages.page} back={back} />;
}
