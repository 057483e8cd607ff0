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
  const [lead, leadWords] = useLead();
  const { strip } = messages;
  const speech = voice === 'no-voice' ? strip.noVoice : wanted ? strip.voice : strip.voiceOff;
  return (
    <p key={`${realm} ${leadWords} ${awake} ${speech}`} className={styles['strip']}>
      {realm === null || realm === 'real' ? null : <b data-realm={realm}>{strip[realm]}</b>}
      {lead === null ? null : <span data-lease={lead}>{leadWords}</span>}
      <span data-awake={awake}>{strip.awake[awake]}</span>
      <span>{speech}</span>
    </p>
  );
}

type Lead = 'mine' | 'elsewhere' | 'free' | 'other' | null;

const useLead = (): readonly [Lead, string] => {
  const lease = useLive(see.lease);
  const role = useLive(see.role);
  const { locale } = useDisplay();
  const { watching, strip } = messages;
  if (lease === null) return [null, ''];
  if (lease.mine) return ['mine', strip.lead];
  if (role === 'watcher') return ['elsewhere', watching.elsewhere];
  if (lease.holder === null) return ['free', watching.free];
  const label = lease.label ?? '';
  return ['other', lease.lostForMs === null ? watching.other(label) : watching.lost(label, secondsText(lease.lostForMs, locale))];
};
