'use client';
import type { Temperatures } from '#lib/work/formula/index';
import { useDisplay } from '../../_live/use';
import { Choice } from '../../_ui/fields';
import { showIn } from '#lib/words/quantities';
import { PaperSection } from '../../_ui/section';
import { on } from '../classes';
import { messages } from '../messages-more';
import { BandFields } from './band-fields';
import { DegreesField } from './degrees-field';
import { useSheet } from './use-sheet';

const { joining: words } = messages;
type Kind = keyof typeof words.kinds;
type Level = Temperatures['apartLevel'];
const KINDS = Object.entries(words.kinds) as [Kind, string][];
const LEVELS = Object.entries(words.levels) as [Level, string][];
const OPTIONAL = ['setsAt', 'milkLimit', 'pourAt'] as const;

/** Every figure still to come. Joining is held meanwhile, as it is for a formula that says nothing. */
const UNSAID: Temperatures = {
  window: { low: '', high: '' },
  apart: '',
  apartLevel: 'hold',
  setsAt: null,
  milkLimit: null,
  pourAt: null,
};

/** At which temperatures lye and oils are joined: as said, or what the trade does. */
export function JoiningSection() {
  const { formula, change, rest, wrongIn } = useSheet();
  const { temperatures } = formula;
  const put = (next: Temperatures | null, field: string): void => change({ ...formula, temperatures: next }, `temperatures.${field}`);
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      <div className={on('form unprinted')}>
        <div className={on('whole')}>
          <Choice
            id="joining-kind"
            label={words.kind}
            value={temperatures === null ? 'usual' : 'said'}
            options={KINDS}
            onChange={(kind) => put(kind === 'usual' ? null : UNSAID, 'kind')}
          />
        </div>
        {temperatures === null ? null : (
          <>
            <BandFields
              id="joining-window"
              path="temperatures.window"
              words={words}
              degrees
              band={temperatures.window}
              onChange={(window, end) => put({ ...temperatures, window: window ?? UNSAID.window }, `window.${end}`)}
            />
            <div onBlur={rest}>
              <DegreesField
                id="joining-apart"
                label={words.apart}
                what="difference"
                value={temperatures.apart}
                error={wrongIn('temperatures.apart')}
                onChange={(apart) => put({ ...temperatures, apart }, 'apart')}
              />
            </div>
            <Choice
              id="joining-level"
              label={words.level}
              value={temperatures.apartLevel}
              options={LEVELS}
              onChange={(apartLevel) => put({ ...temperatures, apartLevel }, 'apartLevel')}
            />
            {OPTIONAL.map((field) => (
              <div key={field} onBlur={rest}>
                <DegreesField
                  id={`joining-${field}`}
                  label={words[field]}
                  what="point"
                  value={temperatures[field] ?? ''}
                  error={wrongIn(`temperatures.${field}`)}
                  onChange={(text) => put({ ...temperatures, [field]: text === '' ? null : text }, field)}
                />
              </div>
            ))}
          </>
        )}
      </div>
      <Uses />
    </PaperSection>
  );
}

const MILLI = 1000;

/** What the bench will go by, said or not. */
function Uses() {
  const { plan } = useSheet();
  const show = showIn(useDisplay());
  if (plan === null) return <p className={on('dim gap')}>{words.not}</p>;
  const { window, allowedApart, apartLevel, oilsSetAt, milkLimit, source } = plan.plan.joining;
  const pourAt = plan.sizing === null ? (window.low + window.high) / 2 : MILLI * plan.sizing.pourAt;
  const at = (temperature: number | null): string | null => (temperature === null ? null : show.temperature(temperature));
  const said = [
    words.window(show.temperature(window.low), show.temperature(window.high)),
    words.within(show.difference(allowedApart), apartLevel),
    words.sets(at(oilsSetAt)),
    words.milk(at(milkLimit)),
    words.pour(show.temperature(pourAt)),
  ];
  return (
    <p className={on('gap')} data-joining={source}>
      {words.uses}: {said.join('; ')} ({source}).
    </p>
  );
}
