'use client';
import { useState } from 'react';
import type { ReactNode } from 'react';
import type { IntentWant } from '#lib/protocol/intent';
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

const words = sheetMessages.outOf;

/** What becomes of what leaves a vessel. */
export interface Way {
  /** After "Out of the pot,". */
  readonly name: string;
  /** In place of that, where nothing leaves a vessel. */
  readonly title?: string;
  /** All of it, mg. */
  readonly all: number;
  readonly want: (mass: number) => IntentWant;
}

/** What is asked of a vessel once it is chosen: where what leaves it goes. */
export interface AskProps {
  readonly batch: BatchState;
  readonly vessel: VesselState;
  readonly onWay: (way: Way) => void;
}

interface OutOfProps {
  readonly title: string;
  readonly teach: string;
  readonly Ask: (props: AskProps) => ReactNode;
}

/** Something leaves a vessel: out of which, which way, how much; held. */
export function OutOf({ title, teach, Ask }: OutOfProps) {
  const batch = useLive(see.batch);
  const [from, setFrom] = useState<string | null>(null);
  const [way, setWay] = useState<Way | null>(null);
  const vessel = Object.values(batch?.vessels ?? {}).find(({ plan }) => plan.id === from) ?? null;
  if (batch === null || vessel === null || vessel.contents <= 0) return <From batch={batch} title={title} teach={teach} onFrom={setFrom} />;
  if (way === null) return <Ask batch={batch} vessel={vessel} onWay={setWay} />;
  return <Amount name={vessel.plan.name} way={way} />;
}

interface FromProps {
  readonly batch: BatchState | null;
  readonly title: string;
  readonly teach: string;
  readonly onFrom: (vessel: string) => void;
}

/** Every vessel that holds something. */
function From({ batch, title, teach, onFrom }: FromProps) {
  const display = useDisplay();
  const full = Object.values(batch?.vessels ?? {}).filter(({ contents }) => contents > 0);
  return (
    <SheetFrame title={title} teach={full.length === 0 ? words.none : teach}>
      <SheetGrid>
        {full.map(({ plan, contents }) => (
          <Press key={plan.id} name={plan.name} sub={massText(contents, display)} onTap={() => onFrom(plan.id)} />
        ))}
      </SheetGrid>
    </SheetFrame>
  );
}

interface WayProps {
  /** What it leaves, or of what it is. */
  readonly name: string;
  readonly way: Way;
}

/** How much of it: all, or a part that is typed; held. */
export function Amount({ name, way }: WayProps) {
  const [part, setPart] = useState(false);
  return part ? <Part name={name} way={way} /> : <HowMuch name={name} way={way} onPart={() => setPart(true)} />;
}

const send = (way: Way, mass: number): void => {
  intend(way.want(mass));
  closeSheet();
};

/** All of it, or a part that is typed; held either way. */
function HowMuch({ name, way, onPart }: WayProps & { readonly onPart: () => void }) {
  const all = massText(way.all, useDisplay());
  return (
    <SheetFrame title={words.how(name, way.name)} teach={words.much(all)}>
      <SheetGrid>
        <HoldPress name={words.all} sub={all} words={holdWords} onHeld={() => send(way, way.all)} />
        <Press name={words.some} sub={words.someSub} onTap={onPart} />
      </SheetGrid>
    </SheetFrame>
  );
}

/** How much of it, typed; held. */
export function Part({ name, way }: WayProps) {
  return <Types kinds={['part']} title={() => way.title ?? words.how(name, way.name)} teach={words.teach} takes={takesFor(way)} />;
}

const takesFor =
  (way: Way) =>
  (_typing: Typing, reading: Taken): ReactNode =>
    reading.kind === 'weight' ? <Takes way={way} mass={reading.net} /> : null;

/** More than is in it is a slip of the finger, told before it is sent. */
function Takes({ way, mass }: { readonly way: Way; readonly mass: number }) {
  const all = massText(way.all, useDisplay());
  const { right } = sheetMessages.keypad;
  if (mass > way.all) return <Press name={right} sub={words.most(all)} />;
  return <HoldPress name={right} sub={way.name} words={holdWords} onHeld={() => send(way, mass)} />;
}
