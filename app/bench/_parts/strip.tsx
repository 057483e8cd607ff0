'use client';
import { see } from '../../_live/selectors';
import { useAwake, useLive, usePreference, useVoice } from '../../_live/use';
import { useDisplay } from '../../_live/use';
import { messages } from '../messages';
import styles from '../bench.module.css';
import { secondsText } from './words';

/** The foot line: what kind of bench this is, who leads it, whether the screen stays on, whether it can speak. */
export function Strip() {
  const realm = useLive(see.realm);
  const awake = useAwake();
  const voice = useVoice();
  const wanted = usePreference((kept) => kept.voice);
  const words = messages.strip;
  return (
    <p className={styles['strip']}>
      {realm === null || realm === 'real' ? null : <b data-realm={realm}>{words[realm]}</b>}
      <Leads />
      <span data-awake={awake}>{words.awake[awake]}</span>
      <span>{voice === 'no-voice' ? words.noVoice : wanted ? words.voice : words.voiceOff}</span>
    </p>
  );
}

function Leads() {
  const lease = useLive(see.lease);
  const role = useLive(see.role);
  const { locale } = useDisplay();
  const { watching, strip } = messages;
  if (lease === null) return null;
  if (lease.mine) return <span data-lease="mine">{strip.lead}</span>;
  const label = lease.label ?? '';
  if (role === 'watcher') return <span data-lease="elsewhere">{watching.elsewhere}</span>;
  if (lease.holder === null) return <span data-lease="free">{watching.free}</span>;
  return (
    <span data-lease="other">
      {lease.lostForMs === null ? watching.other(label) : watching.lost(label, secondsText(lease.lostForMs, locale))}
    </span>
  );
}
