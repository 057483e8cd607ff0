import { mg } from '#lib/units/mass';
import { UNSTATED_WITHIN, alike } from '../alike';
import { mouldsToName } from '../batter';
import type { Draft } from '../entries';
import { asPoured } from '../poured/as-poured';
import { resultOf } from '../poured/result';
import type { BatchState } from '../state';
import { blank, contributionsIn } from './checks';
import { allow, deny, draft, refuse, type Decider } from './decision';
import { outOf } from './standing';
import { otherArmed } from './start';

export const goAway: Decider<'go-away'> = (state, { observation }) => {
  const { settled, lye, oils } = observation;
  return allow(draft('went-away', { line: state.open, gross: settled?.gross ?? null, lye, oils }));
};

export const comeBack: Decider<'come-back'> = (state, { body }) => {
  const { away } = state;
  if (away === null) return refuse('already-done');
  const was = away.gross;
  const now = body.gross;
  const { within = UNSTATED_WITHIN, accept } = body;
  const same = was === null || now === null ? was === now : alike(was, now, within);
  if (!same && !accept) return refuse('needs-answer', { to: 'return', ...(was === null ? {} : { was }), ...(now === null ? {} : { now }) });
  return allow(draft('came-back', { same, was, now }));
};

/** The vessel of the open line was emptied: what the record had in it is no longer in the batch. */
const emptied = (state: BatchState): readonly Draft[] => {
  const line = state.open === null ? undefined : state.lines[state.open];
  if (line === undefined) return [];
  const inside = contributionsIn(state, line.plan.vessel).filter(({ one }) => one.net !== 0);
  const lines = new Set(inside.filter((found) => found.line.status === 'closed').map((found) => found.line.plan.id));
  return [
    ...inside.map((found) =>
      draft('struck', { entry: found.one.entry, reason: 'other', note: 'emptied', out: outOf(state, found.line.plan.id, found.one) }),
    ),
    ...[...lines].map((id) => draft('line-reopened', { line: id })),
  ];
};

/** After a restart a person says what is in the vessel; a program cannot know what happened meanwhile. */
export const resume: Decider<'resume'> = (state, { body, boot }) => {
  if (boot === state.resumedInBoot) return refuse('already-done');
  if (!body.held) return refuse('needs-hold');
  const resumed = draft('resumed', { line: state.open, contents: body.contents, note: body.note });
  return allow(resumed, ...(body.contents === 'emptied' && state.joined === null ? emptied(state) : []));
};

export const park: Decider<'park'> = (_state, { body }) =>
  blank(body.reason) ? refuse('no-such', { what: 'reason', id: '' }) : allow(draft('parked', { reason: body.reason }));

export const takeUp: Decider<'take-up'> = (state, command) => {
  const { note, moulds = [] } = command.body;
  const no = otherArmed(command);
  if (no !== null) return deny(no);
  if (moulds.length > 0 && !mouldsToName(state)) return refuse('already-done', { what: 'moulds' });
  return allow(draft('taken-up', { note, ...(moulds.length === 0 ? {} : { moulds }) }));
};

export const abandon: Decider<'abandon'> = (_state, { body }) => {
  if (blank(body.reason)) return refuse('no-such', { what: 'reason', id: '' });
  return body.held ? allow(draft('abandoned', { reason: body.reason })) : refuse('needs-hold');
};

/** Freezes what was weighed and what it came to; only a joined batch with every line weighed can be closed. */
export const close: Decider<'close'> = (state) => {
  if (state.open !== null) return refuse('wrong-order', { open: state.open });
  const lines = state.order.flatMap((id) => {
    const line = state.lines[id];
    return line === undefined ? [] : [{ line: id, actual: line.actual }];
  });
  const poured = asPoured(state);
  return allow(
    draft('closed', {
      actual: mg(lines.reduce((sum, { actual }) => sum + actual, 0)),
      lines,
      ...(poured.kind === 'figures' ? { poured: resultOf(poured) } : {}),
    }),
  );
};

export const note: Decider<'note'> = (_state, { body: { text, deviation } }) =>
  blank(text) ? refuse('no-such', { what: 'text', id: '' }) : allow(draft('noted', { text, ...(deviation === true ? { deviation } : {}) }));
