'use client';
import { useSyncExternalStore } from 'react';
import { prefer } from '../../_live/preferences';
import { sound, useDisplay, usePreference, useSound, useVoice } from '../../_live/use';
import { PaperSection } from '../../_ui/section';
import { messages } from '../messages';
import { Reminders } from './reminders';
import { Radios } from '../../_ui/fields';
import { on } from './classes';

type Can = keyof typeof messages.screen.awakes;
const never = (): (() => void) => () => undefined;
const canStayAwake = (): Can => ('wakeLock' in navigator ? 'can' : window.isSecureContext ? 'unsupported' : 'plain-http');
/** Whether the bench may keep this screen on (W3C Screen Wake Lock: secure pages only). */
const useCanStayAwake = (): Can => useSyncExternalStore(never, canStayAwake, () => 'can');

/** Units, marks, voice, sound and light of this screen alone. */
export function ThisScreen() {
  const { mass, temperature } = useDisplay();
  const locale = usePreference((kept) => kept.locale);
  const voice = usePreference((kept) => kept.voice);
  const spoken = useVoice();
  const awake = useCanStayAwake();
  const { screen } = messages;
  const marks = screen.markNames;
  return (
    <PaperSection id="screen" name={screen.title} note={<p>{screen.note}</p>}>
      <div className={on('settings')}>
        <Radios
          name="mass"
          legend={screen.mass}
          value={mass}
          options={[
            ['g', screen.masses.g],
            ['oz', screen.masses.oz],
            ['lb', screen.masses.lb],
          ]}
          onChange={(wanted) => prefer({ mass: wanted })}
        />
        <Radios
          name="temperature"
          legend={screen.temperature}
          value={temperature}
          options={[
            ['C', screen.temperatures.C],
            ['F', screen.temperatures.F],
          ]}
          onChange={(wanted) => prefer({ temperature: wanted })}
        />
        <Radios
          name="marks"
          legend={screen.marks}
          value={locale === 'en-GB' || locale === 'de-DE' ? locale : 'auto'}
          options={[
            ['auto', marks.auto],
            ['en-GB', marks['en-GB']],
            ['de-DE', marks['de-DE']],
          ]}
          onChange={(wanted) => prefer({ locale: wanted })}
        />
        <Radios
          name="voice"
          legend={screen.voice}
          value={voice ? 'on' : 'off'}
          options={[
            ['on', screen.voices.on],
            ['off', screen.voices.off],
          ]}
          onChange={(wanted) => prefer({ voice: wanted === 'on' })}
        />
        {spoken === 'no-voice' ? <p className={on('dim')}>{screen.noVoice}</p> : null}
        <Sound />
        <Reminders />
        <h3 className={on('minor gap')}>{screen.awake}</h3>
        <p className={on('reading')}>{screen.awakes[awake]}</p>
      </div>
    </PaperSection>
  );
}

function Sound() {
  const { state } = useSound();
  const muted = usePreference((kept) => kept.muted);
  const { screen } = messages;
  const mute = (): void => {
    prefer({ muted: !muted });
    sound.mute(!muted);
  };
  return (
    <>
      <h3 className={on('minor gap')}>{screen.sound}</h3>
      <p className={on('reading')}>{screen.sounds[muted ? 'muted' : state]}</p>
      <div className={on('acts')}>
        {muted || state === 'absent' ? null : (
          <button type="button" className={on('act')} onClick={() => sound.arm()}>
            {screen.arm}
          </button>
        )}
        <button type="button" className={on('act')} onClick={mute}>
          {muted ? screen.unmute : screen.mute}
        </button>
      </div>
    </>
  );
}
