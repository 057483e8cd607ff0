'use client';
import { useState } from 'react';
import type { AfterwardsWant } from '#lib/protocol/afterwards';
import type { BatchPage } from '#lib/protocol/http';
import type { Display } from '#lib/units/display';
import { massText } from '#lib/units/format';
import { grams } from '#lib/units/mass';
import { readNumber, temperatureOfDecimal } from '#lib/units/parse';
import { planStep } from '#lib/words/quantities';
import type { Lot } from '#lib/work/formula/index';
import { useDisplay } from '../../../_live/use';
import { Choice, TextField } from '../../../_ui/fields';
import { documentOf } from '../../../_ui/kept/kind';
import { shelfApi } from '../../../_ui/shelf-api';
import { useAsked } from '../../../_ui/use-asked';
import { afterwardsMessages as words } from '../messages-afterwards';
import { SaidForm } from './said-form';
import type { SaidProps } from './said-form';
import { on } from './classes';

/** Heaviest that stands on a bench, g. */
const MOST_G = 50_000;

/** To the last digit that it has: what was weighed is not rounded where it is looked at again. */
const exact = (mass: number, display: Display): string => massText(mass, display, planStep(mass));

/** Everything of a batch that can be put right, by a key that the choice carries. */
const choicesOf = (review: BatchPage, display: Display): readonly (readonly [string, string])[] => {
  const poured = review.lines.flatMap(({ material, contributions }) =>
    contributions.flatMap((one) => (one.struck === null && (one.kind === 'pour' || one.kind === 'typed') ? [{ material, one }] : [])),
  );
  return [
    ['', words.choose],
    ...poured.map(
      ({ material, one }) => [`weight ${one.entry}`, words.weightOf(material, exact(one.amended ?? one.net, display))] as const,
    ),
    ...poured.map(({ material, one }) => [`lot ${one.entry}`, words.lotOf(material, one.rightLot ?? one.lot ?? words.unknown)] as const),
    ...(review.joining === null ? [] : (['lye', 'oils'] as const).map((of) => [`temperature ${of}`, words.temperatureOf[of]] as const)),
    ['other', words.other],
  ];
};

/** What the form means; `null` while something is missing. */
const meant = (what: string, typed: Typed, display: Display): AfterwardsWant | null => {
  const [kind = '', of = ''] = what.split(' ');
  const why = typed.why.trim();
  const is = typed.is.trim();
  if (why === '' || is === '') return null;
  if (kind === 'lot') return { kind: 'amend-lot', entry: of, lot: is, why };
  if (kind === 'other') return typed.of.trim() === '' ? null : { kind: 'amend-other', of: typed.of.trim(), was: typed.was.trim(), is, why };
  const number = readNumber(is);
  if (number.kind !== 'number') return null;
  if (kind === 'weight') {
    const value = Number(number.decimal);
    return value < 0 || value > MOST_G ? null : { kind: 'amend-weight', entry: of, is: grams(value), why };
  }
  const degrees = temperatureOfDecimal(number.decimal, display.temperature);
  return degrees === null ? null : { kind: 'amend-temperature', of: of === 'lye' ? 'lye' : 'oils', is: degrees, why };
};

interface Typed {
  readonly of: string;
  readonly was: string;
  readonly is: string;
  readonly why: string;
}
const NOTHING: Typed = { of: '', was: '', is: '', why: '' };

/** What stands there, what is right, and why: the record keeps all three. */
export function PutRightForm({ review, ...props }: Omit<SaidProps, 'batch'> & { readonly review: BatchPage }) {
  const display = useDisplay();
  const { asked: lots } = useAsked(() => shelfApi.list('lot'));
  const [what, setWhat] = useState('');
  const [typed, setTyped] = useState<Typed>(NOTHING);
  const [tried, setTried] = useState(false);
  const kind = what.split(' ')[0];
  const want = async () => {
    setTried(true);
    return meant(what, typed, display);
  };
  const wrong = (key: keyof Typed): string => {
    if (!tried || meant(what, typed, display) !== null) return '';
    if (typed[key].trim() === '') return words.missing;
    return key === 'is' && (kind === 'weight' || kind === 'temperature') ? words.badNumber : '';
  };
  const field = (key: keyof Typed, label: string, numeric = false) => (
    <TextField
      id={`right-${key}`}
      label={label}
      numeric={numeric}
      value={typed[key]}
      error={key === 'was' ? '' : wrong(key)}
      onChange={(text) => setTyped({ ...typed, [key]: text })}
    />
  );
  const marks = lots.state === 'there' ? lots.value.items.map((item) => [item.id, documentOf<Lot>(item).mark] as const) : [];
  const unit = kind === 'weight' ? 'g' : `°${display.temperature}`;
  return (
    <SaidForm {...props} batch={review.summary.id} want={want}>
      <div className={on('whole')}>
        <Choice
          id="right-what"
          label={words.whatIs}
          value={what}
          options={choicesOf(review, display)}
          error={tried && what === '' ? words.missing : ''}
          onChange={(one) => {
            setWhat(one);
            setTyped({ ...NOTHING, why: typed.why });
          }}
        />
      </div>
      {kind === 'lot' ? (
        <Choice
          id="right-lot"
          label={words.lotIs}
          value={typed.is}
          options={[['', words.choose], ...marks]}
          error={wrong('is')}
          onChange={(is) => setTyped({ ...typed, is })}
        />
      ) : null}
      {kind === 'weight' || kind === 'temperature' ? field('is', words.isRightIn(unit), true) : null}
      {kind === 'other' ? (
        <>
          {field('of', words.otherOf)}
          {field('was', words.otherWas)}
          {field('is', words.isRight)}
        </>
      ) : null}
      {kind === '' ? null : <div className={on('whole')}>{field('why', words.putRightWhy)}</div>}
    </SaidForm>
  );
}
