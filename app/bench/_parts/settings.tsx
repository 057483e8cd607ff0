'use client';
import { prefer } from '../../_live/preferences';
import type { Preferences } from '../../_live/preferences';
import { see } from '../../_live/selectors';
import { live, sound, useAwake, useLive, usePreference } from '../../_live/use';
import { Press } from '../../_ui/press';
import { messages } from '../messages';
import { sheetMessages } from '../messages-sheets';
import { openSheet } from './controls';
import { SheetFrame, SheetGrid } from './sheet';

const next = <T extends string>(all: readonly T[], now: T): T => all[(all.indexOf(now) + 1) % all.length] ?? now;
const LOCALES: readonly string[] = ['auto', 'en-GB', 'de-DE'];

/** Units, marks, voice and sound of this screen; who leads; why it may go dark. */
export function SettingsSheet() {
  const kept: Preferences = usePreference((all) => all);
  const awake = useAwake();
  const mine = useLive(see.mine);
  const role = useLive(see.role);
  const hand = useLive(see.hand);
  const { settings } = sheetMessages;
  const marks = settings.markNames as Readonly<Record<string, string>>;
  const mute = (): void => {
    prefer({ muted: !kept.muted });
    sound.mute(!kept.muted);
  };
  return (
    <SheetFrame title={settings.title}>
      <SheetGrid>
        <Press name={settings.masses[kept.mass]} sub={settings.mass} onTap={() => prefer({ mass: next(['g', 'oz', 'lb'], kept.mass) })} />
        <Press
          name={settings.temperatures[kept.temperature]}
          sub={settings.temperature}
          onTap={() => prefer({ temperature: next(['C', 'F'], kept.temperature) })}
        />
        <Press name={marks[kept.locale] ?? kept.locale} sub={settings.marks} onTap={() => prefer({ locale: next(LOCALES, kept.locale) })} />
        <Press name={kept.voice ? settings.on : settings.off} sub={settings.voice} onTap={() => prefer({ voice: !kept.voice })} />
        <Press name={kept.muted ? messages.sound.unmute : messages.sound.mute} sub={settings.sound} onTap={mute} />
        <Press name={sheetMessages.people.title} onTap={() => openSheet('people')} />
        {mine ? <Press name={settings.giveUp} sub={settings.control} onTap={() => void live().lease('release', '')} /> : null}
        {role === 'watcher' ? <Press name={sheetMessages.pair.title} onTap={() => openSheet('pair')} /> : null}
      </SheetGrid>
      {hand === null ? null : <p>{settings.hand(hand.seen, hand.lag)}</p>}
      {awake === 'awake' || awake === 'asking' ? null : <p>{settings.awake[awake]}</p>}
    </SheetFrame>
  );
}
