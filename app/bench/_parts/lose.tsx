'use client';
import { losable } from '#lib/work/batch/decide/losable';
import type { EntryBodies } from '#lib/work/batch/index';
import { massText } from '#lib/units/format';
import { useDisplay } from '../../_live/use';
import { Press } from '../../_ui/press';
import { sheetMessages } from '../messages-sheets';
import { OutOf } from './out-of';
import type { AskProps, Way } from './out-of';
import { SheetFrame, SheetGrid } from './sheet';

const words = sheetMessages.lose;
type Cause = EntryBodies['lost']['cause'];
const CAUSES = Object.keys(words.causes) as Cause[];

/** What was lost from a vessel, and how. */
export function LoseSheet() {
  return <OutOf title={words.title} teach={words.from} Ask={How} />;
}

function How({ batch, vessel, onWay }: AskProps) {
  const display = useDisplay();
  const { id, name } = vessel.plan;
  const all = (cause: Cause): number => losable(batch, vessel, cause).reduce((sum, { mass }) => sum + mass, 0);
  const way = (cause: Cause): Way => ({
    name: words.causes[cause].way,
    all: all(cause),
    // While it is weighed a spill asks for ways out; afterwards it is only kept.
    want: (mass) =>
      cause === 'spill' && batch.status === 'weighing'
        ? { kind: 'state-wrong', what: 'spill', line: null, vessel: id, mass, held: true }
        : { kind: 'lose', vessel: id, mass, cause, note: '' },
  });
  return (
    <SheetFrame title={words.of(name)} teach={words.how(massText(vessel.contents, display))}>
      <SheetGrid>
        {CAUSES.map((cause) =>
          all(cause) > 0 ? (
            <Press key={cause} name={words.causes[cause].name} sub={words.causes[cause].sub} onTap={() => onWay(way(cause))} />
          ) : (
            <Press key={cause} name={words.causes[cause].name} sub={words.dry} />
          ),
        )}
      </SheetGrid>
    </SheetFrame>
  );
}
