import { checkScale, checkScaleByHandbook, type ScaleCheck } from '#lib/soap/net/index';
import { useDisplay } from '../../../_live/use';
import { on } from '../../../_ui/classes';
import { TextField } from '../../../_ui/fields';
import { PaperSection } from '../../../_ui/section';
import { messages } from '../messages';
import { gramsIn } from './steps';
import { figureOf, type NetTyped } from './typed';

interface Props {
  readonly nominal: number;
  /** Step of the scale that told the weights, grams; `null`: typed. */
  readonly step: number | null;
  readonly typed: NetTyped;
  readonly onTyped: (change: Partial<NetTyped>) => void;
}

const FIELDS = ['known', 'shown', 'step'] as const;

/** Whether the scale may check such bars at all. */
export function ScaleFirst({ nominal, step, typed, onTyped }: Props) {
  const g = gramsIn(useDisplay().locale);
  const { scale: words, lot } = messages;
  const [known, shown, typedStep] = FIELDS.map((key) => figureOf(typed[key]));
  const own = typedStep ?? step;
  const ready = own !== null && own !== undefined && own > 0;
  const off = known == null || shown == null || Number.isNaN(known) || Number.isNaN(shown) ? null : shown - known;
  const said = ({ verdict, error, most }: ScaleCheck): string => words.verdicts[verdict](g(error ?? 0), g(most));
  const handbook = ready ? checkScaleByHandbook({ step: own, off }, nominal) : null;
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      <div className={on('form')}>
        {FIELDS.map((key) => (
          <TextField
            key={key}
            id={`net-${key}`}
            label={words[key]}
            numeric
            value={typed[key]}
            hint={key === 'step' && step !== null ? g(step) : ''}
            error={Number.isNaN(figureOf(typed[key]) ?? 0) ? lot.wrong.number : ''}
            onChange={(value) => onTyped({ [key]: value })}
          />
        ))}
      </div>
      {ready ? (
        <>
          <p className={on('gap')}>
            <b>{said(checkScale({ step: own, off }, nominal))}</b> {words.how}
          </p>
          {handbook === null ? null : (
            <p>
              {words.handbook}: {said(handbook)}
            </p>
          )}
        </>
      ) : null}
    </PaperSection>
  );
}
