import styles from '../work.module.css';

export type Row = readonly [label: string, value: string];

/** Figures of a sheet, each under its name. */
export function Rows({ rows }: { readonly rows: readonly Row[] }) {
  return (
    <dl className={styles['potRows']}>
      {rows.map(([label, value]) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
