'use client';
import { messages } from '../messages';
import styles from '../work.module.css';
import { SheetFrame } from './sheet';

/** One tap away during hydroxide. After the safety data sheet of sodium hydroxide, section 4. */
export function FirstAid() {
  const { title, steps, never, note } = messages.firstAid;
  return (
    <SheetFrame title={title}>
      <ol className={styles['aidSteps']}>
        {steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
        <li>
          <b>{never}</b>
        </li>
      </ol>
      <p>{note}</p>
    </SheetFrame>
  );
}
