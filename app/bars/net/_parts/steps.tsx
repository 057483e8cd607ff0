import { numberText } from '#lib/units/format';
import type { AverageCheck, AverageStep, HandbookCheck, HandbookStep } from '#lib/soap/net/index';
import type { Source } from '#lib/soap/source';
import { useDisplay } from '../../../_live/use';
import { on } from '../../../_ui/classes';
import { Head } from '../../../_ui/head';
import { PaperSection } from '../../../_ui/section';
import { messages } from '../messages';

interface Row {
  readonly name: string;
  readonly arithmetic: string;
  readonly holds: boolean;
  /** It waits for more bars rather than failing. */
  readonly waits: boolean;
  readonly source: Source;
}

type Grams = (value: number) => string;

/** Tenths where the scale has them. */
export const gramsIn =
  (locale: string): Grams =>
  (value) =>
    numberText(value, locale, Math.abs(value - Math.round(value)) < 1e-9 ? 0 : 2);

const averageRow = (step: AverageStep, nominal: number, g: Grams): string => {
  const { average: words } = messages;
  switch (step.kind) {
    case 'enough':
      return words.enough(step.weighed, step.needed, step.lot, step.whole);
    case 'below-tne':
      return words.belowTne(g(nominal), g(step.tne), g(step.limit), step.found, step.of, step.allowed);
    case 'below-twice':
      return words.belowTwice(g(step.limit), step.found.map(g));
    case 'mean':
      return step.factor === 0
        ? words.wholeMean(g(step.mean), g(nominal), step.of)
        : words.mean(g(step.mean), g(nominal), String(step.factor), g(step.deviation), g(step.limit), step.of);
    case 'guidance':
      break;
  }
  return words.guidance(step.found, step.of, step.allowed);
};

const handbookRow = (step: HandbookStep, nominal: number, g: Grams): string => {
  const { handbook: words } = messages;
  switch (step.kind) {
    case 'enough':
      return words.enough(step.weighed, step.needed, step.lot);
    case 'individual':
      return words.individual(g(nominal), g(step.variation), g(step.limit), step.found.map(g));
    case 'mean':
      break;
  }
  return words.mean(g(step.mean), String(step.factor), g(step.deviation), g(step.errorLimit), step.of);
};

/** Of no bar nothing holds: every step waits. */
const isNone = (steps: readonly (AverageStep | HandbookStep)[]): boolean =>
  steps.some((step) => step.kind === 'enough' && step.weighed === 0);

/** Step by step by the average system, and what comes of it. */
export function Average({ check, nominal }: { readonly check: AverageCheck; readonly nominal: number }) {
  const g = gramsIn(useDisplay().locale);
  const { average: words } = messages;
  const none = isNone(check.steps);
  const rows = check.steps.map((step) => ({
    name: words.names[step.kind],
    arithmetic: averageRow(step, nominal, g),
    holds: step.holds && !none,
    waits: step.kind === 'enough' || none,
    source: step.source,
  }));
  return <Steps title={words.title} note={words.note} rows={rows} verdict={words.verdicts[check.verdict]} />;
}

/** The same by Handbook 133. */
export function Handbook({ check, nominal }: { readonly check: HandbookCheck; readonly nominal: number }) {
  const g = gramsIn(useDisplay().locale);
  const { handbook: words } = messages;
  const none = isNone(check.steps);
  const rows = check.steps.map((step) => ({
    name: words.names[step.kind],
    arithmetic: handbookRow(step, nominal, g),
    holds: step.holds && !none,
    waits: step.kind === 'enough' || none,
    source: step.source,
  }));
  return <Steps title={words.title} note={words.note} rows={rows} verdict={words.verdicts[check.verdict]} />;
}

function Steps({
  title,
  note,
  rows,
  verdict,
}: {
  readonly title: string;
  readonly note: string;
  readonly rows: readonly Row[];
  readonly verdict: string;
}) {
  const { heads, holds, memory } = messages;
  return (
    <PaperSection name={title} note={<p>{note}</p>}>
      <p className={on('lead')}>{verdict}</p>
      <table className={on('table gap')}>
        <thead>
          <tr>
            <Head name={heads.step} />
            <Head name={heads.arithmetic} />
            <Head name={heads.holds} unseen />
            <Head name={heads.source} wide />
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.name}>
              <td>{row.name}</td>
              <td>{row.arithmetic}</td>
              <td>{row.holds ? holds.yes : row.waits ? holds.waits : <b>{holds.no}</b>}</td>
              <td className={on('wide')}>{row.source.grade === 'memory' ? memory(row.source.text) : row.source.text}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </PaperSection>
  );
}
