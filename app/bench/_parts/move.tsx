'use client';
import { useState } from 'react';
import type { ReactNode } from 'react';
import type { IntentWant } from '#lib/protocol/intent';
import { goesBack } from '#lib/work/batch/decide/back-to-stock';
import type { BatchState, VesselState } from '#lib/work/batch/index';
import { massText } from '#lib/units/format';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { HoldPress, Press } from '../../_ui/press';
import { sheetMessages } from '../messages-sheets';
import { closeSheet, holdWords, intend } from './controls';
import { Types } from './keypad';
import type { Taken } from './read-back';
import { SheetFrame, SheetGrid } from './sheet';
import type { Typing } from './typing';

const words = sheetMessages.move;
type Out = keyof typeof words.out;
const OUT = Object.keys(words.out) as Out[];

/** Where it goes: another vessel of the batch, or out of it. */
interface Way {
  readonly name: string;
  readonly want: (mass: number) => IntentWant;
}

/** Moves what is in a vessel into another, or takes it out of the batch: out of which, where to, how much; held. */
export function MoveSheet() {
  const batch = useLive(see.batch);
  const [from, setFrom] = useState<string | null>(null);
  const [way, setWay] = useState<Way | null>(null);
  const [part, setPart] = useState(false);
  const vessel = Object.values(batch?.vessels ?? {}).find(({ plan }) => plan.id === from) ?? null;
  if (batch === null || vessel === null || vessel.contents <= 0) return <From batch={batch} onFrom={setFrom} />;
  if (way === null) return <Where batch={batch} vessel={vessel} onWay={setWay} />;
  if (part) return <Part vessel={vessel} way={way} />;
  return <HowMuch vessel={vessel} way={way} onPart={() => setPart(true)} />;
}

function From({ batch, onFrom }: { readonly batch: BatchState | null; readonly onFrom: (vessel: string) => void }) {
  const display = useDisplay();
  const full = Object.values(batch?.vessels ?? {}).filter(({ contents }) => contents > 0);
  return (
    <SheetFrame title={words.title} teach={full.length === 0 ? words.none : words.from}>
      <SheetGrid>
        {full.map(({ plan, contents }) => (
          <Press key={plan.id} name={plan.name} sub={massText(contents, display)} onTap={() => onFrom(plan.id)} />
        ))}
      </SheetGrid>
    </SheetFrame>
  );
}

interface WhereProps {
  readonly batch: BatchState;
  readonly vessel: VesselState;
  readonly onWay: (way: Way) => void;
}

function Where({ batch, vessel, onWay }: WhereProps) {
  const display = useDisplay();
  const from = vessel.plan.id;
  const others = Object.values(batch.vessels).filter(({ plan }) => plan.id !== from);
  const mayGoBack = goesBack(batch, vessel);
  const into = ({ plan }: VesselState): Way => ({
    name: words.into(plan.name),
    want: (mass) => ({ kind: 'move', from, to: plan.id, mass, residue: null }),
  });
  const out = (to: Out): Way => ({ name: words.out[to].way, want: (mass) => ({ kind: 'withdraw', vessel: from, mass, to }) });
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

interface WayProps {
  readonly vessel: VesselState;
  readonly way: Way;
}

const send = (way: Way, mass: number): void => {
  intend(way.want(mass));
  closeSheet();
};

function HowMuch({ vessel, way, onPart }: WayProps & { readonly onPart: () => void }) {
  const display = useDisplay();
  const contents = massText(vessel.contents, display);
  return (
    <SheetFrame title={words.how(vessel.plan.name, way.name)} teach={words.much(contents)}>
      <SheetGrid>
        <HoldPress name={words.all} sub={contents} words={holdWords} onHeld={() => send(way, vessel.contents)} />
        <Press name={words.some} sub={words.someSub} onTap={onPart} />
      </SheetGrid>
    </SheetFrame>
  );
}

function Part({ vessel, way }: WayProps) {
  return <Types kinds={['moved']} title={() => words.how(vessel.plan.name, way.name)} teach={words.teach} takes={takesFor(way)} />;
}

const takesFor =
  (way: Way) =>
  (_typing: Typing, reading: Taken): ReactNode =>
    reading.kind === 'weight' ? (
      <HoldPress name={sheetMessages.keypad.right} sub={way.name} words={holdWords} onHeld={() => send(way, reading.net)} />
    ) : null;
