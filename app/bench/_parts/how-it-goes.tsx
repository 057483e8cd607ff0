'use client';
import { startMessages } from '../messages-start';
import styles from '../bench.module.css';

/** Beside the plans, while nothing is on the bench. */
export function HowItGoes() {
  const { teachTitle, teach } = startMessages;
  return (
    <section className={styles['teach']} aria-label={teachTitle}>
      <h2>{teachTitle}</h2>
      <ol>
        {teach.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
    </section>
  );
}
