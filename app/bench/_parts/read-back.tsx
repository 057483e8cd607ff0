'use client';
import type { ReactNode } from 'react';
import type { LineState } from '#lib/work/batch/index';
import { massText } from '#lib/units/format';
import { nextPortion, portionName } from '#lib/work/batch/portion-name';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { HoldPress, Press } from '../../_ui/press';
import { sheetMessages } from '../messages-sheets';
import styles from '../work.module.css';
import { closeSheet, holdWords, intend } from './controls';
import { SheetGrid } from './sheet';
import type { Reading, Typing } from './typing';

export type Taken = Extract<Reading, { kind: 'weight' | 'temperature' }>;
type Weight = Extract<Reading, { kind: 'weight' }>;

interface ReadBackProps {
  readonly reading: Taken;
  readonly onChange: () => void;
  /** What sends it. */
  readonly children: ReactNode;
}

/** What was typed, large, to be read aloud against the scale or the thermometer; only then is it sent. */
export function ReadBack({ reading, onChange, children }: ReadBackProps) {
  const words = sheetMessages.keypad;
  return (
    <div className={styles['entry']} role="alert">
      <p>{words.readBack}</p>
      <output className={styles['typed']} data-read={reading.shown}>
        {reading.shown}
      </output>
      <SheetGrid>
        {children}
        <Press name={words.wrong} onTap={onChange} />
      </SheetGrid>
    </div>
  );
}

/** Sends what was read back, as what it was typed for. */
export function Takes({ typing, reading }: { readonly typing: Typing; readonly reading: Taken }): ReactNode {
  const line = useLive(see.line);
  const batter = useLive(
    ({ batch }) => Object.values(batch?.vessels ?? {}).find(({ state }) => state === 'joined' || state === 'portioned') ?? null,
  );
  const portion = useLive(({ batch }) => nextPortion(batch?.parts ?? []));
  const display = useDisplay();
  const words = sheetMessages.keypad;
  const right = (send: () => void) => <Press name={words.right} onTap={() => (send(), closeSheet())} loud />;
  if (reading.kind === 'temperature') {
    const { what } = typing;
    return what === 'lye' || what === 'oils' || what === 'room' || what === 'batter'
      ? right(() => intend({ kind: 'type-temperature', use: what, value: reading.value }))
      : null;
  }
  if (typing.what === 'portion') {
    if (batter === null) return null;
    const { contents, plan } = batter;
    // A slip of the finger, told before it is sent: what was typed stays.
    if (reading.net > contents) return <Press name={words.right} sub={sheetMessages.outOf.most(massText(contents, display))} />;
    return right(() => intend({ kind: 'split', vessel: plan.id, parts: [{ name: portionName(portion), mass: reading.net }] }));
  }
  return line === null ? null : <TakesWeight line={line} weight={reading} />;
}

interface Sending {
  readonly part: boolean;
  readonly held: boolean;
  readonly shortIsFine: boolean;
}

/** A weight of the open line. Short of its tolerance, a person says whether more will follow; hydroxide is held, as when it is weighed. */
function TakesWeight({ line, weight }: { readonly line: LineState; readonly weight: Weight }) {
  const words = sheetMessages.keypad;
  const { id, target, tolerance, material } = line.plan;
  const short = line.actual + weight.net < target - tolerance;
  const hydroxide = material.class === 'hydroxide';
  const send = ({ part, held, shortIsFine }: Sending): void => {
    const { net, text, unit } = weight;
    intend({ kind: 'type-weight', line: id, net, text, unit, readBack: true, part, held, shortIsFine });
    closeSheet();
  };
  const whole = { part: false, held: hydroxide, shortIsFine: false };
  const part = { ...whole, part: true };
  return (
    <>
      {short ? (
        <HoldPress name={words.all} words={holdWords} onHeld={() => send({ part: false, held: true, shortIsFine: true })} />
      ) : hydroxide ? (
        <HoldPress name={words.right} sub={material.name} words={holdWords} onHeld={() => send(whole)} />
      ) : (
        <Press name={words.right} onTap={() => send(whole)} loud />
      )}
      {hydroxide ? (
        <HoldPress name={words.part} words={holdWords} onHeld={() => send(part)} />
      ) : (
        <Press name={words.part} onTap={() => send(part)} loud={short} />
      )}
    </>
  );
}
