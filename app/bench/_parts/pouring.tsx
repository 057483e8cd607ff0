'use client';
import { massText, shareText } from '#lib/units/format';
import { mouldsOf } from '#lib/work/batch/moulds';
import { leftOver, partTarget } from '#lib/work/batch/pouring/amounts';
import { allJobs, type Job } from '#lib/work/batch/pouring/jobs';
import type { BatchState } from '#lib/work/batch/index';
import type { PortionCue } from '#lib/bench/cue';
import type { Display } from '#lib/units/display';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { Press } from '../../_ui/press';
import { pourWords as words } from '../messages-pour';
import styles from '../work.module.css';
import { openSheet } from './controls';
import { sourcesText } from './pour-words';

type About = NonNullable<PortionCue['job']>;

/** Which part or mould is filled now, how and from where, how much is left, and the way to another. */
export function Pouring() {
  const display = useDisplay();
  const batch = useLive(see.batch);
  const about = useLive(see.job);
  if (batch === null) return null;
  const job = about === null ? undefined : allJobs(batch).find(({ key }) => key === about.key);
  const moulds = mouldsOf(batch);
  const done = moulds.filter(({ mass }) => mass !== null).length;
  return (
    <>
      <div key={about?.key ?? ''} className={styles['next']}>
        <span className={styles['lead']}>{job === undefined ? words.done(done, moulds.length) : words.lead[job.kind]}</span>
        <b>{job === undefined || about === null ? words.all : titleOf(job)}</b>
        <span key={batch.version} className={styles['sub']}>
          {job === undefined || about === null ? '' : howOf(batch, job, about, display)}
        </span>
      </div>
      <Press
        key={`open ${about?.key}`}
        className={styles['aid']}
        name={words.open}
        sub={words.leftOver(massText(leftOver(batch), display, 1000))}
        onTap={() => openSheet('pour')}
      />
    </>
  );
}

const titleOf = (job: Job): string => {
  if (job.kind === 'mould') return job.mould.pattern === null ? words.sheet.none : words.patterns[job.mould.pattern].name;
  return words.titles[job.kind];
};

const howOf = (batch: BatchState, job: Job, { from, by }: About, display: Display): string => {
  if (job.kind === 'left') return words.by.gain;
  if (job.kind === 'part' && by === 'loss') return words.by.pot;
  if (job.kind === 'part')
    return partTarget(batch, job.part).by === 'additive' ? words.additive : words.share(shareText(job.part.ppm, display));
  const sources = words.from(sourcesText(batch, from));
  return by === 'loss' ? `${sources}, ${words.by.loss}` : sources;
};
