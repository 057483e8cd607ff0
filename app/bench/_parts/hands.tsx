'use client';
import { massRange } from '#lib/units/format';
import { see } from '../../_live/selectors';
import { live, sound, useDisplay, useLive, useSound, useVoice, usePreference } from '../../_live/use';
import { prefer } from '../../_live/preferences';
import { useFrame } from '../../_ui/frame';
import { HoldPress, Press } from '../../_ui/press';
import { messages } from '../messages';
import { goOnWordsFor } from '../messages-go-on';
import styles from '../bench.module.css';
import { act, closeSheet, holdWords, openSheet, silence, useControls } from './controls';
import { screenLabel } from './label';
import { useSeen } from './seen';
import { isWeighing } from './shape';
import { Temperature } from './temperature';
import { takenBy } from './words';

/** The foot of the screen: back, sound, the two temperatures, first aid, more, go on. Always there, always in the same place. */
export function Hands() {
  return (
    <div className={styles['hands']}>
      <BackPress />
      <SoundPress />
      <Temperature use="lye" />
      <Temperature use="oils" />
      <FirstAidPress onTap={() => openSheet('first-aid')} />
      <Press className={styles['more']} name={messages.press.more} onTap={() => openSheet('more')} />
      <GoOnPress />
    </div>
  );
}

/** One tap away whatever the bench does: a splash waits for no state. */
export function FirstAidPress({ onTap }: { readonly onTap: () => void }) {
  return <Press className={styles['aid']} name={messages.press.firstAid} icon={<Cross />} onTap={onTap} />;
}

const pedalOf = (pedal: { readonly key: string; readonly full: boolean } | null, key: string) =>
  pedal?.key === key ? (pedal.full ? 'full' : 'holding') : null;

function BackPress() {
  const sheet = useControls((state) => state.sheet);
  const local = useControls((state) => state.local !== null);
  const pedal = useControls((state) => state.pedal);
  const offline = useSeen().offline;
  const mine = useLive(see.mine);
  const cards = useLive(see.cards).length;
  const { phase } = useSeen();
  if (sheet !== 'none') return <Press className={styles['back']} name={messages.press.close} onTap={closeSheet} loud />;
  if (offline || !mine) return <Press className={styles['back']} name={messages.press.back} />;
  if (local || cards > 0)
    return <Press className={styles['back']} name={messages.press.back} sub={messages.press.stepBack} onTap={() => act('back', false)} />;
  const sub = phase === 'offer' ? messages.press.cancel : messages.press.holdAway;
  return (
    <HoldPress
      className={styles['back']}
      name={messages.press.back}
      sub={sub}
      words={holdWords}
      pedal={pedalOf(pedal, 'back')}
      onTap={() => act('back', false)}
      onHeld={() => act('back', true)}
    />
  );
}

export function SoundPress() {
  const { state, context, ringing } = useSound();
  const unsilenced = useLive(see.sounding);
  const voice = useVoice();
  const muted = usePreference((kept) => kept.muted);
  const alarming = ringing || unsilenced;
  const wide = useFrame() === 'wide';
  const words = messages.sound.states[state];
  const data = { 'data-audio': context, 'data-sound': state, 'data-voice': voice };
  const arm = (): void => {
    if (muted) prefer({ muted: false });
    sound.arm();
  };
  return alarming ? (
    <Press
      className={styles['sound']}
      name={messages.sound.silence}
      sub={state === 'armed' ? messages.sound.sounding : messages.sound.unheard}
      icon={wide ? <Horn /> : undefined}
      loud
      onTap={silence}
      data={data}
    />
  ) : (
    <Press className={styles['sound']} name={messages.sound.name} sub={words} icon={<Horn />} onTap={arm} data={data} />
  );
}

const takeControl = (): void => void live().lease('take', screenLabel());

function GoOnPress() {
  const { offline, phase } = useSeen();
  const mine = useLive(see.mine);
  const role = useLive(see.role);
  const free = useLive(see.free);
  const goOn = useLive(see.goOn);
  const pedal = useControls((state) => state.pedal);
  const local = useControls((state) => state.local !== null);
  const sub = useWaiting();
  const { press } = messages;
  if (offline) return <Press className={styles['go']} name={press.goOn} sub={messages.waits.offline} />;
  if (!mine && role === 'maker' && free)
    return <Press className={styles['go']} name={press.control} sub={messages.watching.free} onTap={takeControl} loud />;
  if (!mine && role === 'maker')
    return <HoldPress className={styles['go']} name={press.control} sub={press.controlSub} words={holdWords} onHeld={takeControl} />;
  if (!mine) return <Press className={styles['go']} name={press.goOn} sub={messages.waits.watch} />;
  if (local) return <Press className={styles['go']} name={press.next} sub={press.stepOn} onTap={() => act('go-on', false)} />;
  if (goOn === null) return <Press className={styles['go']} name={press.goOn} sub={sub} data={{ 'data-go': 'none' }} />;
  const data = { 'data-go': goOn.code };
  const words = goOnWordsFor(goOn.code);
  const offered = phase === 'ask' || phase === 'hold' || phase === 'gate' || goOn.code === 'take-portion';
  return goOn.hold || goOn.code === 'next-card' ? (
    <HoldPress
      className={styles['go']}
      name={press.goOn}
      sub={words}
      words={holdWords}
      loud={offered}
      data={data}
      pedal={pedalOf(pedal, 'go-on')}
      onHeld={() => act('go-on', true)}
      onTap={goOn.hold ? undefined : () => act('go-on', false)}
    />
  ) : (
    <Press className={styles['go']} name={press.goOn} sub={words} loud={offered} onTap={() => act('go-on', false)} data={data} />
  );
}

/** Why there is nothing to press: what the bench waits for. */
const useWaiting = (): string => {
  const { phase, kind } = useSeen();
  const display = useDisplay();
  const target = useLive(see.target);
  const tolerance = useLive(see.tolerance);
  const division = useLive(see.division);
  const cards = useLive(see.cards);
  const portioned = useLive(see.portion) !== null;
  const how = messages.waits[useLive((state) => takenBy(see.line(state), see.doubt(state), see.phase(state)))];
  const short = useFrame() === 'phone';
  if (cards.some(({ enabled }) => enabled)) return messages.waits.card;
  if (portioned) return messages.waits.pot;
  if (phase === null || !isWeighing(phase))
    return phase === 'temperatures' || phase === 'joining' || phase === 'gate' ? messages.waits.meet : messages.waits.nothing;
  if (phase === 'lift') return messages.waits.lift;
  if (kind === 'words' || phase === 'blocked') return messages.waits.scale;
  if (kind === 'planned') return messages.waits.vessel;
  if (target === null || tolerance === null) return messages.waits.nothing;
  if (short) return how;
  const [from, to] = massRange(target - tolerance, target + tolerance, display, division);
  return messages.waits.range(how, from.replace(/\s\D+$/, ''), to);
};

/** As on the sign for first aid (ISO 7010, E003): a white cross on green. */
const Cross = () => (
  <svg viewBox="0 0 32 32" aria-hidden="true">
    <path className={styles['solid']} d="M1 1h30v30H1z" />
    <path d="M16 7v18M7 16h18" />
  </svg>
);
const Horn = () => (
  <svg className={styles['horn']} viewBox="0 0 32 32" aria-hidden="true">
    <path className={styles['solid']} d="M3 12h6l8-7v22l-8-7H3z" />
    <path d="M22 11a7 7 0 0 1 0 10M26 7a12 12 0 0 1 0 18" />
  </svg>
);
