'use client';
import type { Route } from 'next';
import Link from 'next/link';
import { see } from '../../_live/selectors';
import { useLive } from '../../_live/use';
import { PaperSection } from '../../_ui/section';
import { messages } from '../messages';
import { on } from './classes';

type Step = keyof typeof messages.begin.steps;
const PLACES: Readonly<Record<Step, Route>> = {
  practice: '/bench',
  start: '/bench',
  scale: '/setup#bind' as Route,
  tablet: '/setup#tablet' as Route,
};

/** How to start: everything there is to do before anything was made, one step afterwards. */
export function Begin({ first }: { readonly first: boolean }) {
  const practice = useLive(see.realm) === 'practice';
  const steps: readonly Step[] = first ? [practice ? 'practice' : 'start', 'scale', 'tablet'] : ['start'];
  const { begin } = messages;
  return (
    <PaperSection name={first ? begin.title : begin.again}>
      <ol className={on('steps')}>
        {steps.map((step, at) => (
          <li key={step}>
            <div>
              <h3 className={on('minor')}>{begin.steps[step].name}</h3>
              <p className={on('dim')}>{begin.steps[step].sub}</p>
            </div>
            <Link className={on(at === 0 ? 'act first' : 'act')} href={PLACES[step]} prefetch={false}>
              {begin.steps[step].act}
            </Link>
          </li>
        ))}
      </ol>
    </PaperSection>
  );
}

export function BeforeLye() {
  const { lye } = messages;
  return (
    <PaperSection name={lye.title}>
      <p className={on('reading')}>{lye.text}</p>
      <p className={on('dim')}>{lye.note}</p>
    </PaperSection>
  );
}
