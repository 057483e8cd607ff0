'use client';
import type { CSSProperties } from 'react';
import type { Display } from '#lib/units/display';
import { differenceText, figureNumber, figureText, massFigure, massText, shareText, temperatureText } from '#lib/units/format';
import type { Figure } from '#lib/units/format';
import { see } from '../../_live/selectors';
import type { LiveState } from '../../_live/store';
import { useDisplay, useLive } from '../../_live/use';
import { LiveText } from '../../_ui/live-text';
import { limitOf, messages } from '../messages';
import styles from '../bench.module.css';
import { useControls } from './controls';
import { LateWhither, usePortionAct } from './late';
import { useSeen } from './seen';
import { isWeighing } from './shape';
import { actFor, FIGURE_SPACE, secondsText, showIn } from './words';

/** Under the number: what to do now, and the figures it rests on. */
export function Meaning() {
  const act = useAct();
  const easeOff = useLive(see.easeOff);
  // The size follows from the length alone: nothing is measured, so nothing jumps.
  return (
    <div className={styles['meaning']} style={{ '--long': act.length } as CSSProperties}>
      <b key={act} id="bench-act" data-ease={easeOff || undefined}>
        {act}
      </b>
      <Fact />
    </div>
  );
}

const useAct = (): string => {
  const { phase, block, shape, offline, joiningHeld } = useSeen();
  const link = useLive(see.link);
  const outdated = useLive(see.outdated);
  const asking = useControls((state) => state.asking);
  const line = useLive(see.line);
  const easeOff = useLive(see.easeOff);
  const division = useLive(see.division);
  const gate = useLive(see.gate);
  const vessel = useLive((state) => see.vessel(state)?.plan.name ?? null);
  const tolerance = useLive(see.tolerance);
  const portion = useLive(see.portion);
  const portionAct = usePortionAct();
  const holds = useLive(see.joining)?.holds;
  const carried = useLive(see.carried);
  const heavy = useLive(see.carriedHeavy);
  const lye = useLive(see.carriedLye);
  const filled = useLive(isFilled);
  const show = showIn(useDisplay(), division);
  if (asking !== null) return asking.how;
  if (outdated) return messages.offline.outdated.act;
  if (phase === null) return messages.offline.connecting.act;
  if (offline) return messages.offline[link === 'connecting' ? 'connecting' : 'down'].act;
  if (phase === 'take-out') return messages.phases[phase].act;
  if (carried != null && (shape === 'red' || shape === 'calm')) {
    if (heavy === null && lye !== null) return messages.acts.lye(show.share(lye));
    return messages.acts.superfat(show.share(carried.value), show.share(carried.half), heavy);
  }
  if (shape === 'red') return messages.acts.overRed;
  if (shape === 'calm') return messages.acts.overCalm;
  if (gate !== null) return messages.gates[gate.gate].act;
  if (block !== null && block !== 'moving') return messages.blocks[block].act;
  if (joiningHeld && phase !== 'gate') {
    const first = holds?.find(({ level, overridden }) => level === 'hold' && !overridden);
    return first === undefined
      ? messages.phases[phase].act
      : first.reason === 'lye-too-hot' && first.limit === null
        ? messages.acts.lyeHeats
        : messages.holds[first.reason];
  }
  if (portion !== null) return portionAct?.(portion) ?? messages.phases[phase].act;
  if (phase === 'lift' && vessel !== null) return messages.acts.lift(vessel);
  if (phase === 'offer' && tolerance !== null) return messages.number.within(show.mass(tolerance));
  return actFor(phase, line?.plan.material.class ?? null, line?.plan.mode === 'loss', easeOff, filled);
};

/** What is waited for is not empty: a bottle, what holds earlier lines, or what was being poured into when it was lifted. */
const isFilled = (state: LiveState): boolean => {
  const open = see.line(state)?.plan;
  return (
    open?.mode === 'loss' || !!see.vessel(state)?.contents || Object.values(state.batch?.pans ?? {}).some((pan) => pan?.line === open?.id)
  );
};

function Fact() {
  const carried = useLive((state) => see.carried(state) !== null);
  const { phase, kind, offline, joiningHeld } = useSeen();
  if (offline || phase === 'away') return null;
  if (phase === 'joining' || phase === 'temperatures') return joiningHeld ? <HoldFact /> : null;
  if (phase === 'ask' || phase === 'question') return <Doubt />;
  if (phase === 'take-out') return <LateWhither />;
  // What it means takes the whole row.
  if (carried) return null;
  if (kind === 'since') return <Plain text={messages.number.since} />;
  if (kind === 'gross') return <Plain text={messages.number.gross} />;
  if (kind === 'words') return <LastKnown />;
  return isWeighing(phase) && kind === 'left' ? <OfTarget /> : <Vessel />;
}

/** Other words are another element: what is set anew at the right edge has not moved. */
function Plain({ text }: { readonly text: string }) {
  return (
    <span key={text} className={styles['fact']}>
      {text}
    </span>
  );
}

function OfTarget() {
  const display = useDisplay();
  const known = useLive((state) => see.total(state) !== null);
  const target = useLive(see.target);
  const division = useLive(see.division);
  if (!known || target === null) return null;
  const whole = massFigure(target, display, division);
  const pounds = whole.rest !== null;
  const shown = pounds ? massText(target, display, division) : figureNumber(whole);
  return (
    <span key={shown} className={styles['fact']}>
      <LiveText as="em" data={TOTAL} read={pounds ? totalText : totalNumber} />
      {messages.number.of('', '')}
      <em>{shown}</em> {pounds ? '' : whole.unit}
    </span>
  );
}

const TOTAL = { 'data-total': '' };
const totalFigure = (state: LiveState, display: Display): Figure => massFigure(see.total(state) ?? 0, display, see.division(state));
/** As wide as the target beside it, so that nothing moves while it grows. */
const totalNumber = (state: LiveState, display: Display): string => {
  const target = figureNumber(massFigure(see.target(state) ?? 0, display, see.division(state)));
  return figureNumber(totalFigure(state, display)).padStart(target.length, FIGURE_SPACE);
};
const totalText = (state: LiveState, display: Display): string => figureText(totalFigure(state, display));

/** The last good weight, as words beside the hatching: never as a number that looks alive. */
function LastKnown() {
  const display = useDisplay();
  const scale = useLive(see.scale);
  const batch = useLive(see.batch);
  const line = useLive(see.line);
  if (scale?.last == null) return null;
  const pan = batch?.pans[scale.id];
  const pours = pan !== undefined && line !== null && pan.line === line.plan.id;
  const net = pours ? line.actual + (line.plan.mode === 'loss' ? -1 : 1) * (scale.last.gross - pan.zero) : scale.last.gross;
  const age = messages.scale.age(secondsText(scale.last.age, display.locale));
  return <Plain text={messages.number.last(massText(net, display, scale.division), age)} />;
}

function Doubt() {
  const doubt = useLive(see.doubt);
  return doubt === null ? null : (
    <span key={doubt} className={`${styles['fact']} ${styles['doubt']}`}>
      {messages.doubts[doubt]}
    </span>
  );
}

function Vessel() {
  const { phase } = useSeen();
  const vessel = useLive(see.vessel);
  const scale = useLive(see.scale);
  // A line weighed by hand stands on no scale of this bench.
  if (vessel === null || phase === null || phase === 'by-hand' || !isWeighing(phase)) return null;
  return <Plain text={messages.where(vessel.plan.name, scale?.name ?? '')} />;
}

function HoldFact() {
  const display = useDisplay();
  const holds = useLive(see.joining)?.holds;
  const first = holds?.find(({ level, overridden }) => level === 'hold' && !overridden);
  if (first?.limit == null) return null;
  if (first.reason === 'may-be-lye-heavy') return <Plain text={messages.joining.asLowAs(shareText(first.value ?? 0, display))} />;
  const amount = first.reason === 'apart' ? differenceText(first.limit, display) : temperatureText(first.limit, display);
  return <Plain text={limitOf(first.reason, amount)} />;
}
