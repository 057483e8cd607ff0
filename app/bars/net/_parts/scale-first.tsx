import { checkScale, checkScaleByHandbook, type ScaleCheck } from '#lib/soap/net/index';
import { useDisplay } from '../../../_live/use';
import { on } from '../../../_ui/classes';
import { TextField } from '../../../_ui/fields';
import { PaperSection } from '../../../_ui/section';
import { messages } from '../messages';
import { gramsIn } from './steps';
import { figureOf, type NetTyped } from './typed';

/** Of the scale as typed; a step nobody knows leaves it unknown. `step`: of the scale that told the weights, grams. */
export const scaleChecked = (
  typed: NetTyped,
  step: number | null,
  nominal: number,
): { readonly average: ScaleCheck; readonly handbook: ScaleCheck | null } => {
  const [known, shown, own] = [figureOf(typed.known), figureOf(typed.shown), figureOf(typed.step) ?? step];
  const sound = own !== null && own > 0 && known !== null && shown !== null && known > 0 && !Number.isNaN(shown);
  const scale = sound ? { step: own, off: shown - known } : { step: 1, off: null };
  return { average: checkScale(scale, nominal), handbook: checkScaleByHandbook(scale, nominal) };
};

interface Props {
  readonly check: ReturnType<typeof scaleChecked>;
  readonly step: number | null;
  readonly typed: NetTyped;
  readonly onTyped: (change: Partial<NetTyped>) => void;
}

const FIELDS = ['known', 'shown', 'step'] as const;

/** Whether the scale may check such bars at all. */
export function ScaleFirst({ check: { average, handbook }, step, typed, onTyped }: Props) {
  const g = gramsIn(useDisplay().locale);
  const { scale: words, lot } = messages;
  const said = ({ verdict, error, most }: ScaleCheck): string => words.verdicts[verdict](g(error ?? 0), g(most));
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
      <p className={on('gap')}>
        <b>{said(average)}</b> {average.verdict === 'not-known' ? null : words.how}
      </p>
      {handbook === null || handbook.verdict === 'not-known' ? null : (
        <p>
          {words.handbook}: {said(handbook)}
        </p>
      )}
    </PaperSection>
  );
}
