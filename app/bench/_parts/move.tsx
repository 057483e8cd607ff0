'use client';
import { goesBack } from '#lib/work/batch/decide/back-to-stock';
import type { VesselState } from '#lib/work/batch/index';
import { massText } from '#lib/units/format';
import { useDisplay } from '../../_live/use';
import { Press } from '../../_ui/press';
import { sheetMessages } from '../messages-sheets';
import { OutOf } from './out-of';
import type { AskProps, Way } from './out-of';
import { SheetFrame, SheetGrid } from './sheet';

const words = sheetMessages.move;
type Out = keyof typeof words.out;
const OUT = Object.keys(words.out) as Out[];

/** Moves what is in a vessel into another, or takes it out of the batch. */
export function MoveSheet() {
  return <OutOf title={words.title} teach={words.from} Ask={Where} />;
}

function Where({ batch, vessel, onWay }: AskProps) {
  const display = useDisplay();
  const from = vessel.plan.id;
  const others = Object.values(batch.vessels).filter(({ plan }) => plan.id !== from);
  const mayGoBack = goesBack(batch, vessel);
  const into = ({ plan }: VesselState): Way => ({
    name: words.into(plan.name),
    all: vessel.contents,
    want: (mass) => ({ kind: 'move', from, to: plan.id, mass, residue: null }),
  });
  const out = (to: Out): Way => ({
    name: words.out[to].way,
    all: vessel.contents,
    want: (mass) => ({ kind: 'withdraw', vessel: from, mass, to }),
  });
  return (
    <SheetFrame title={words.to(vessel.plan.name)} teach={words.where(massText(vessel.contents, display))}>
      <SheetGrid>
        {others.map((other) => (
          <Press
            key={other.plan.id}
            name={other.plan.name}
            sub={other.contents > 0 ? words.holding(massText(other.contents, display)) : words.empty}
            onTap={() => onWay(into(other))}
          />
        ))}
        {OUT.map((to) =>
          to === 'bottle' && !mayGoBack ? (
            <Press key={to} name={words.out[to].name} sub={words.mixed} />
          ) : (
            <Press key={to} name={words.out[to].name} sub={words.out[to].way} onTap={() => onWay(out(to))} />
          ),
        )}
      </SheetGrid>
    </SheetFrame>
  );
}
