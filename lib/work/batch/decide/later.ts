import type { Amended } from '../later/types';
import { AMENDABLE } from '../later/types';
import type { BatchState } from '../state';
import { blank } from './checks';
import { allow, draft, refuse, type Decider, type Decision } from './decision';
import type { Draft } from '../entries';

const WHOLE = /^-?\d{1,9}$/;
const HASH = /^[0-9a-f]{64}$/;

/** What stands there now; `null`: there is no such thing in this batch. */
const standsAs = (state: BatchState, body: Omit<Amended, 'was'>): Pick<Amended, 'was' | 'line'> | null => {
  if (body.what === 'other') return null;
  if (body.what === 'temperature') {
    if (state.joined === null || (body.of !== 'lye' && body.of !== 'oils')) return null;
    return { was: String(state.joined[body.of] ?? ''), line: null };
  }
  for (const { plan, contributions } of Object.values(state.lines)) {
    const one = contributions.find(
      ({ entry, struck, kind }) => entry === body.entry && struck === null && (kind === 'pour' || kind === 'typed'),
    );
    if (one !== undefined) return { was: body.what === 'weight' ? String(one.amended ?? one.net) : (one.lot?.mark ?? ''), line: plan.id };
  }
  return null;
};

/** A correction names what stood there by the record, never by the screen that asks for it. */
export const amend: Decider<'amend'> = (state, { body }) => {
  if (!AMENDABLE.includes(body.what)) return refuse('no-such', { what: 'amendment', id: body.what });
  if (blank(body.why)) return refuse('no-such', { what: 'reason', id: '' });
  if (body.what === 'other') return inWords(body);
  const stands = standsAs(state, body);
  if (stands === null) return refuse('no-such', { what: body.what, id: body.entry ?? body.of });
  const { lot, ...said } = body;
  if (body.what === 'lot' ? lot === undefined || lot.mark !== body.is : !WHOLE.test(body.is)) return refuse('bad-number');
  if (body.what === 'weight' && Number(body.is) < 0) return refuse('bad-number');
  if (stands.was === body.is) return refuse('already-done');
  return allow(draft('amended', { ...said, ...stands, ...(body.what === 'lot' && lot !== undefined ? { lot } : {}) }));
};

const inWords = ({ of, was, is, why }: Amended): Decision =>
  blank(of) || blank(is) ? refuse('no-such', { what: 'text', id: '' }) : allow(otherwise({ of, was, is, why }));

const otherwise = (said: Pick<Amended, 'of' | 'was' | 'is' | 'why'>): Draft =>
  draft('amended', { what: 'other', entry: null, line: null, ...said });

/** The picture itself was kept before: an entry never names what is not there. */
export const keepPhoto: Decider<'keep-photo'> = (_state, { body }) =>
  HASH.test(body.sha256) ? allow(draft('photo-kept', body)) : refuse('no-such', { what: 'photo', id: body.sha256 });

/** Ticked before the first line: the bench wiped, the tools clean. */
export const cleanedOf = (items: readonly string[]): readonly Draft[] => (items.length === 0 ? [] : [draft('cleaned', { items })]);
