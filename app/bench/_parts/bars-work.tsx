'use client';
import { useRouter } from 'next/navigation';
import { useEffect, useState } from 'react';
import type { BarsPage } from '#lib/protocol/bars';
import { see } from '../../_live/selectors';
import type { Display } from '#lib/units/display';
import { massText } from '#lib/units/format';
import { live, useDisplay, useLive } from '../../_live/use';
import { barsApi } from '../../_ui/bars-api';
import { Press } from '../../_ui/press';
import { barsMessages } from '../messages-bars';
import work from '../work.module.css';
import { barsCue } from './bars-shown';
import { LocalCards } from './cards';
import type { LocalCard } from './cards';
import { intend } from './controls';

/** Which bars: the ones followed so far, or some to begin with, or every bar against its label. */
export function BarsWork({ id, known }: { readonly id: string; readonly known: number | null }) {
  const display = useDisplay();
  const running = useLive((state) => barsCue(state) !== null);
  const mine = useLive(see.mine);
  const page = useLot(id, running);
  if (running) return <Help />;
  if (id === '' || page === 'none') return <ToBars />;
  return page === null || !mine ? null : (
    <LocalCards cards={[...massCard(page, known, display), ...cardsFor(page)]} back={() => undefined} />
  );
}

/** What is said of the scale reaches over from beside it on a small screen. */
const BESIDE_TRUTH = { width: '92%' };

/** No bars are named, or none that there are. */
function ToBars() {
  const router = useRouter();
  const { name, sub } = barsMessages.list;
  return (
    <div className={work['cards']} data-count="1" style={BESIDE_TRUTH}>
      <Press className={work['card']} name={name} sub={sub} onTap={() => router.push('/bars')} />
    </div>
  );
}

/** On the practice bench somebody else's hands put bars on and take them off. */
function Help() {
  const practice = useLive(see.realm) === 'practice';
  const mine = useLive(see.mine);
  if (!practice) return null;
  return (
    <div className={work['cards']} data-count="1" style={BESIDE_TRUTH}>
      <Press
        className={work['card']}
        name={barsMessages.help}
        onTap={mine ? () => void live().scene({ act: 'help' }) : undefined}
        data={{ 'data-help': '' }}
      />
    </div>
  );
}

const useLot = (id: string, running: boolean): BarsPage | 'none' | null => {
  const [page, setPage] = useState<BarsPage | 'none' | null>(null);
  useEffect(() => {
    if (id === '' || running) return undefined;
    let left = false;
    void barsApi.lot(id).then((answer) => (left ? undefined : setPage(answer.ok ? answer.value : 'none')));
    return () => {
      left = true;
    };
  }, [id, running]);
  return page;
};

/** What the check of the net content asked for: the scale first. */
const massCard = ({ row }: BarsPage, known: number | null, display: Display): readonly LocalCard[] => {
  const { mass } = barsMessages.starts;
  const take = (): void => intend({ kind: 'bars-begin', lot: row.id, bars: [], count: 1, for: 'mass', known: known ?? 0 });
  return known === null ? [] : [{ key: 'mass', name: mass.name(massText(known, display)), sub: mass.sub, take }];
};

const cardsFor = ({ row, followed }: BarsPage): readonly LocalCard[] => {
  const { starts } = barsMessages;
  const begin = (bars: readonly number[], count: number, purpose: 'cure' | 'net') => (): void =>
    intend({ kind: 'bars-begin', lot: row.id, bars: [...bars], count, for: purpose });
  const made = row.counts.made;
  // From the two ends and the middle of the log: an end dries faster.
  const three = [...new Set([1, Math.ceil(made / 2), made])].filter((bar) => bar > 0);
  const middle = Math.max(1, Math.ceil(made / 2));
  const follow: readonly LocalCard[] =
    followed.length > 0
      ? [
          {
            key: 'followed',
            name: starts.followed.name(followed.join(', ')),
            sub: starts.followed.sub,
            take: begin(followed, followed.length, 'cure'),
          },
        ]
      : [
          { key: 'three', name: starts.three.name(three.join(', ')), sub: starts.three.sub, take: begin(three, three.length, 'cure') },
          { key: 'one', name: starts.one.name(middle), sub: starts.one.sub, take: begin([middle], 1, 'cure') },
        ];
  const all = row.counts.shelf;
  return all > 0 ? [...follow, { key: 'net', name: starts.net.name(all), sub: starts.net.sub, take: begin([], all, 'net') }] : follow;
};
