'use client';
import { numberText } from '#lib/units/format';
import type { Blend } from '#lib/work/formula/index';
import { useDisplay } from '../../_live/use';
import { massHead } from '#lib/words/quantities';
import { on } from '../classes';
import { messages } from '../messages-sheet';
import { AmountField } from './amount-field';
import { withBlend, withBlendName, withoutBlend } from './blends';
import { gramsText } from './mass';
import { useSheet } from './use-sheet';
import { Figure, short, SlipRow } from './workings';

const COLUMNS = 6;

/** Fragrances that go in together: how much of the whole; each of its own stands below with its share. */
export function BlendRow({ blend, at }: { readonly blend: Blend; readonly at: number }) {
  const { formula, change, rest, wrongAt, plan, derivation } = useSheet();
  const display = useDisplay();
  const wrong = wrongAt(`blends[${at}]`);
  const grams = (plan?.lines ?? []).reduce((sum, one) => sum + (blend.entries.includes(one.entry) ? one.grams : 0), 0);
  const limit = derivation(`blend-limit:${blend.id}`);
  return (
    <>
      <tr>
        <th scope="row">
          <input
            className={on('field')}
            aria-label={messages.blend.called}
            value={blend.name}
            autoComplete="off"
            spellCheck={false}
            onChange={(event) => change(withBlendName(formula, blend.id, event.target.value), `blends.${blend.id}.name`)}
            onBlur={rest}
          />
          {wrong === '' ? null : (
            <p id={`blend-${blend.id}-wrong`} className={on('warn')}>
              {wrong}
            </p>
          )}
        </th>
        <td>
          <AmountField
            id={`blend-${blend.id}`}
            name={blend.name}
            part="fragrance"
            amount={blend.amount}
            pours
            wrong={wrong}
            onChange={(amount) =>
              change(
                { ...formula, blends: formula.blends.map((one) => (one.id === blend.id ? { ...one, amount } : one)) },
                `blends.${blend.id}.amount`,
              )
            }
            onLeave={rest}
          />
        </td>
        <td className={on('n')} data-head={`${messages.heads.weight} ${massHead(display)}`}>
          {grams === 0 ? null : <Figure of={`blend:${blend.id}`}>{gramsText(grams, display)}</Figure>}
        </td>
        <td className={on('n wide')}>
          {plan === null ? null : (
            <Figure of={`blend-share:${blend.id}`}>{numberText((100 * grams) / plan.figures.batter, display.locale, 2)} %</Figure>
          )}
        </td>
        <td className={on('n wide')}>
          {limit === undefined ? null : (
            <Figure of={limit.id} label={messages.blend.ofLimit(short(limit.value, display.locale, 3))}>
              {messages.blend.ofLimit(short(limit.value, display.locale, 3))}
            </Figure>
          )}
        </td>
        <td className={on('n')}>
          <button type="button" className={on('link')} onClick={() => change(withoutBlend(formula, blend), `blends.${blend.id}`)}>
            {messages.blend.part}
          </button>
        </td>
      </tr>
      <SlipRow ids={['blend', 'blend-share', 'blend-limit'].map((what) => `${what}:${blend.id}`)} columns={COLUMNS} />
    </>
  );
}

/** Several fragrances, none of them in a blend yet, as one. */
export function MakeBlend() {
  const { formula, change } = useSheet();
  const next = withBlend(formula, messages.blend.name);
  return next === formula ? null : (
    <button type="button" className={on('act')} onClick={() => change(next, 'blends.add')}>
      {messages.blend.make}
    </button>
  );
}
