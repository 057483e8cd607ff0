'use client';
import { on } from '../../_ui/classes';
import { Head } from '../../_ui/head';
import { PaperSection } from '../../_ui/section';
import { messages } from '../messages';
import { lotMessages } from '../messages-lot';
import { BarMarks } from './bar-marks';
import { Leaving } from './leaving';
import type { LotProps } from './lot-props';
import { Market } from './market';
import { Returned } from './returned';
import { useBuyers } from './use-buyers';

const COUNTS = ['made', 'shelf', 'away', 'aside', 'sold', 'given', 'spoiled'] as const;

/** What became of every bar: one tap or a count, and one count after a market. */
export function Counts({ page, again }: LotProps) {
  const { row, state } = page;
  const buyers = useBuyers();
  const { counts: words } = lotMessages;
  // Hardly ever is anything kept apart: where nothing is, it takes no room.
  const shown = COUNTS.filter((one) => one !== 'aside' || state.counts.aside > 0);
  // How many were made stands at the head of the page: on a small screen it gives way.
  const isSpare = (one: (typeof COUNTS)[number]): boolean => one === 'made' && shown.length === COUNTS.length;
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      <BarMarks left={row.counts.shelf} made={row.counts.made} label={messages.shelf.left(row.counts.shelf, row.counts.made)} />
      <table className={on('table gap')}>
        <caption className="unseen">{words.title}</caption>
        <thead>
          <tr>
            {shown.map((one) => (
              <Head key={one} name={words.heads[one]} n wide={isSpare(one)} />
            ))}
          </tr>
        </thead>
        <tbody>
          <tr>
            {shown.map((one) => (
              <td key={one} className={on(isSpare(one) ? 'n wide' : 'n')} data-count={one}>
                {state.counts[one]}
              </td>
            ))}
          </tr>
        </tbody>
      </table>
      <Leaving page={page} buyers={buyers} again={again} />
      <Returned page={page} buyers={buyers} again={again} />
      <Market page={page} again={again} />
    </PaperSection>
  );
}
