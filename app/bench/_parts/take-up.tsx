'use client';
import { useEffect, useState } from 'react';
import type { BatchListRow, MouldsFor } from '#lib/protocol/http';
import { fetchMoulds } from '../../_live/http';
import { startMessages } from '../messages-start';
import type { LocalCard } from './cards';
import { controls, intend } from './controls';
import { PagesOfCards } from './pages-of-cards';

/** A batch that has no moulds, and those it could be poured into. */
export interface Mouldless {
  readonly row: BatchListRow;
  readonly offer: MouldsFor;
}

const NONE: MouldsFor = { batterMl: null, moulds: [] };

const takeUp = (batch: string, moulds: readonly string[]): void =>
  intend({ kind: 'take-up', batch, note: '', ...(moulds.length === 0 ? {} : { moulds: [...moulds] }) });

/** Takes it up, unless it is to be asked first into which moulds it goes. Where those cannot be fetched it is taken up all the same. */
export const takeUpOrAsk = async (row: BatchListRow, ask: (of: Mouldless) => void): Promise<void> => {
  const offer = await fetchMoulds(row.id).catch(() => NONE);
  if (offer.moulds.length === 0) takeUp(row.id, []);
  else ask({ row, offer });
};

/** What the chosen moulds come to. */
const fitOf = ({ batterMl, moulds }: MouldsFor, chosen: readonly string[]): string => {
  const room = moulds.reduce((sum, { id, brimMl }) => (chosen.includes(id) ? sum + brimMl : sum), 0);
  if (room === 0 || batterMl === null) return room === 0 ? startMessages.noMould : '';
  return batterMl > room ? startMessages.tooSmall(Math.ceil(batterMl), room) : startMessages.fits(Math.round((100 * batterMl) / room));
};

/** Any number of moulds, then the batch is taken up with them. */
export function MouldChoice({ of: { row, offer }, onLeave }: { readonly of: Mouldless; readonly onLeave: () => void }) {
  const [chosen, setChosen] = useState<readonly string[]>([]);
  useEffect(() => {
    controls.setState({ asking: { what: startMessages.intoWhich, how: startMessages.intoHow } });
    return () => controls.setState({ asking: null });
  }, []);
  const turn = (id: string): void => setChosen(chosen.includes(id) ? chosen.filter((one) => one !== id) : [...chosen, id]);
  const cards: LocalCard[] = [
    { key: 'take-up', name: startMessages.takeUp(row.mark), sub: fitOf(offer, chosen), take: () => takeUp(row.id, chosen) },
    ...offer.moulds.map(({ id, name, brimMl, holds }) => ({
      key: `mould ${id}`,
      name: chosen.includes(id) ? startMessages.mouldIn(name) : name,
      sub: holds.length === 0 ? startMessages.mould(brimMl) : startMessages.mouldHolds(brimMl, holds),
      take: () => turn(id),
    })),
  ];
  return <PagesOfCards cards={cards} more={startMessages.moreMoulds} pageWords={startMessages.page} back={onLeave} />;
}
