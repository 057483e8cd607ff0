'use client';
import type { BatchState, LineState } from '#lib/work/batch/index';
import { massText } from '#lib/units/format';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { useFrame } from '../../_ui/frame';
import type { Frame } from '../../_ui/frame';
import { messages } from '../messages';
import benchStyles from '../bench.module.css';
import styles from '../work.module.css';
import { useControls } from './controls';
import { ASKED } from './heading';
import {
  LateByHand,
  LateCards,
  LateHolds,
  LateLotChoice,
  LateMaking,
  LatePassingTemperatures,
  LatePotLine,
  LatePortions,
  LatePourCards,
  LateStart,
  LateWays,
} from './late';
import { Lost } from './lost';
import { useSeen } from './seen';
import { isSteps, Steps } from './steps';
import { unbroken } from './words';

/** The room below the number. On the small frames a sheet lies over it: what nobody sees there is then not reached by the keyboard either. */
export function WorkRoom({ frame }: { readonly frame: Frame }) {
  const covered = useControls(({ sheet }) => sheet !== 'none') && frame !== 'wide';
  return (
    <section className={benchStyles['work']} tabIndex={-1} aria-labelledby={ASKED} inert={covered}>
      <Work />
    </section>
  );
}

/** Below the number: ways out when there are any, what to do when something is lost, else what comes next. */
export function Work() {
  const { phase, kind, offline } = useSeen();
  const cards = useLive(see.cards);
  const status = useLive(see.status);
  const frame = useFrame();
  if (offline || phase === null) return <Lost />;
  if (phase === 'patterns' || phase === 'trouble') return <LatePourCards />;
  if (cards.length > 0) return cards.some(({ remedy }) => remedy !== undefined) ? <LateWays /> : <LateCards />;
  if (phase === 'idle' || (phase === 'done' && status !== 'weighing' && status !== 'joined')) return <LateStart />;
  if (kind === 'words' && phase !== 'away') return <Lost />;
  if (phase === 'temperatures' || phase === 'joining') return <LateHolds />;
  // On a phone it is the last of the precautions, which have the whole width.
  if (phase === 'gate') return frame === 'phone' ? null : <LateMaking />;
  if (phase === 'choose-lot') return <LateLotChoice />;
  if (phase === 'by-hand') return <LateByHand />;
  if (phase === 'pouring-moulds') return <LatePortions />;
  if (phase === 'trace' || phase === 'done') return null;
  return (
    <>
      <Next frame={frame} />
      {isSteps(phase) ? <Steps /> : <LatePassingTemperatures />}
    </>
  );
}

/** Letters of a name beside its amount; a longer one is set smaller rather than cut. */
const FITS = 19;

/** What comes after this line, so that the hand can already reach for it. */
function Next({ frame }: { readonly frame: Frame }) {
  const display = useDisplay();
  const batch = useLive(see.batch);
  const line = useLive(see.line);
  if (batch === null) return null;
  const next = nextAfter(batch, line);
  const name = next?.plan.material.name ?? '';
  // A phone has rows enough for all of it.
  const fit = frame === 'phone' ? 1 : Math.min(1, FITS / Math.max(1, name.length));
  return (
    // A name may take more rows than the one before it: what stands below is another element then, and has not moved.
    <div key={name} className={styles['next']}>
      <span className={styles['lead']}>{messages.next}</span>
      {next === null ? (
        <b>{messages.lastLine}</b>
      ) : (
        <>
          <b>
            {/* Inside, so that its row is as high as any. */}
            <span style={{ fontSize: `${fit}em` }}>{name}</span>
          </b>
          <span key={next.plan.id} className={styles['amount']}>
            {massText(next.plan.target - next.actual, display)}
          </span>
          <span className={styles['sub']}>{next.plan.lot === null ? messages.noLot : messages.lot(unbroken(next.plan.lot.mark))}</span>
        </>
      )}
      <LatePotLine />
    </div>
  );
}

export const nextAfter = (batch: BatchState, line: LineState | null): LineState | null => {
  const from = line === null ? 0 : batch.order.indexOf(line.plan.id) + 1;
  const id = batch.order.slice(from).find((candidate) => batch.lines[candidate]?.status === 'waiting');
  return id === undefined ? null : (batch.lines[id] ?? null);
};
