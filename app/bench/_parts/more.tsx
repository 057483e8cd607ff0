'use client';
import { useRouter } from 'next/navigation';
import type { Route } from 'next';
import { see } from '../../_live/selectors';
import { useLive } from '../../_live/use';
import { HoldPress, Press } from '../../_ui/press';
import { sheetMessages } from '../messages-sheets';
import { closeSheet, holdWords, intend, openSheet } from './controls';
import type { Sheet } from './controls';
import { SheetFrame, SheetGrid } from './sheet';

const want = (kind: 'away' | 'return' | 'part-pour' | 'weigh-back') => (): void => {
  intend({ kind });
  closeSheet();
};
const go = (sheet: Sheet) => (): void => openSheet(sheet);

/** What a hand may want besides the three intents. */
export function More() {
  const router = useRouter();
  const status = useLive(see.status);
  const away = useLive(({ batch }) => batch?.away != null);
  const practice = useLive(see.realm) === 'practice';
  const phase = useLive(see.phase);
  const words = sheetMessages.more;
  // Typed there, where it is said what is typed; before joining the keypad is for weights, at trace for the batter's temperature.
  const moulds =
    useLive(({ batch }) => batch?.plan.moulds !== undefined) &&
    ((status === 'joined' && phase !== 'trace') || phase === 'joining' || phase === 'temperatures' || phase === 'patterns');
  // A screen that only watches is asked nothing that it may not do.
  const mine = useLive(see.mine);
  const open = mine && (status === 'weighing' || status === 'joined');
  const pouring = mine && status === 'weighing';
  return (
    <SheetFrame title={mine ? words.title : words.watching}>
      <SheetGrid>
        {away ? (
          <Press name={words.comeBack} onTap={open ? want('return') : undefined} />
        ) : (
          <Press name={words.away} onTap={open ? want('away') : undefined} />
        )}
        {moulds ? (
          <Press name={words.moulds} onTap={open ? go('pour') : undefined} />
        ) : (
          <Press name={words.byHand} onTap={open ? go('keypad') : undefined} />
        )}
        <Press name={words.partPour} onTap={pouring ? want('part-pour') : undefined} />
        <Press name={words.weighBack} onTap={pouring ? want('weigh-back') : undefined} />
        <Press name={words.lot} onTap={pouring ? go('lot') : undefined} />
        <Press name={words.correct} onTap={open ? go('correct') : undefined} />
        <Press name={words.move} onTap={pouring ? go('move') : undefined} />
        <Press name={words.wrong} onTap={open ? go('wrong') : undefined} />
        {status === 'joined' && (phase === 'trace' || phase === 'pouring-moulds' || phase === 'done') ? (
          <Press name={words.close} onTap={open ? go('close') : undefined} />
        ) : (
          <Press name={words.park} onTap={open ? go('park') : undefined} />
        )}
        <Press name={words.abandon} onTap={open ? go('abandon') : undefined} />
        {practice ? <Press name={words.practice} onTap={go('scene')} /> : null}
        <Press name={words.settings} onTap={go('settings')} />
        <Press name={words.temperatures} sub={words.temperaturesSub} onTap={() => (closeSheet(), router.push('/bench/temperatures'))} />
        <HoldPress name={words.today} words={holdWords} onHeld={() => (closeSheet(), router.push('/' as Route))} />
      </SheetGrid>
    </SheetFrame>
  );
}
