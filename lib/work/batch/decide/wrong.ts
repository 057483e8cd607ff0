import type { CommandOf } from '../commands';
import type { Draft } from '../entries';
import { own } from '../own';
import { apportion, asShares, totalOf } from '../shares';
import type { BatchState, LineState } from '../state';
import { isHydroxide } from '../classes';
import { allow, draft, refuse, type Decider, type Decision } from './decision';
import { outOf } from './standing';

type Stated = CommandOf<'state-wrong'>['body'];

const stated = ({ held: _held, ...body }: Stated): Draft => draft('wrong-stated', body);

/** A mixture of known composition was lost: never more than its vessel holds. */
const spilt = (state: BatchState, body: Stated): Decision => {
  const vessel = body.vessel === null ? undefined : own(state.vessels, body.vessel);
  if (vessel === undefined || body.mass === null) return refuse('no-such', { what: 'vessel', id: body.vessel ?? '' });
  const shares = asShares(vessel.holds);
  if (body.mass <= 0 || body.mass > totalOf(shares)) return refuse('bad-number', { mass: body.mass, contents: totalOf(shares) });
  const lost = { vessel: vessel.plan.id, mass: body.mass, cause: 'spill', note: '', source: 'by-hand' } as const;
  return allow(stated(body), draft('lost', { ...lost, shares: apportion(body.mass, shares) }));
};

/** All that was poured on the line came from another lot: its weights stand, what they are made of does not. */
const otherLot = (body: Stated, line: LineState): Decision => {
  if (body.lot === undefined || body.basis === undefined) return refuse('no-such', { what: 'lot', id: body.lot?.id ?? '' });
  return allow(stated(body), draft('lot-chosen', { line: line.plan.id, lot: body.lot }));
};

/** What was poured on one line was the material of another: crossed out there, stated here, and lying where it lay. */
const otherMaterial = (state: BatchState, body: Stated, line: LineState): Decision => {
  const truly = body.was === undefined ? undefined : own(state.lines, body.was);
  if (truly === undefined || truly === line) return refuse('no-such', { what: 'line', id: body.was ?? '' });
  if (isHydroxide(line.plan) || isHydroxide(truly.plan)) return refuse('wrong-order', { line: line.plan.id });
  const poured = line.contributions.filter(({ kind, struck }) => struck === null && (kind === 'pour' || kind === 'typed'));
  if (poured.length === 0) return refuse('bad-number', { line: line.plan.id });
  const { lot } = truly.plan;
  const drafts = poured.flatMap((one): readonly Draft[] => [
    draft('struck', { entry: one.entry, reason: 'wrong-material', note: '', out: outOf(state, line.plan.id, one) }),
    draft('weight-typed', {
      line: truly.plan.id,
      vessel: one.vessel,
      typed: { net: one.net, text: (one.net / 1000).toString(), unit: 'g' },
      part: true,
      lot,
    }),
  ]);
  const reopened = line.status === 'closed' ? [draft('line-reopened', { line: line.plan.id })] : [];
  return allow(stated(body), ...drafts, ...reopened);
};

/** Without a mass none of it ever went in: forgotten, and found now. */
const leftInJug = (body: Stated, line: LineState): Decision => {
  const mass = body.mass ?? line.actual;
  if (mass <= 0 || mass > line.actual) return refuse('bad-number', { mass, contents: line.actual });
  return allow(stated({ ...body, mass, vessel: body.vessel ?? line.plan.vessel }));
};

/** What is left of a material on the shelf, nothing at the least. */
const leftOf = (body: Stated): Decision =>
  body.mass === null || body.mass < 0 ? refuse('bad-number', { mass: body.mass ?? -1 }) : allow(stated(body));

/** A wrong is stated, never inferred, and held: it changes what the batch is worked out from. Ways out are asked for after it. */
export const stateWrong: Decider<'state-wrong'> = (state, { body }) => {
  if (!body.held) return refuse('needs-hold', { what: body.what });
  if (body.what === 'spill') return spilt(state, body);
  const line = body.line === null ? undefined : own(state.lines, body.line);
  if (line === undefined) return refuse('no-such', { what: 'line', id: body.line ?? '' });
  if (body.what === 'lot') return otherLot(body, line);
  if (body.what === 'material') return otherMaterial(state, body, line);
  if (body.what === 'stock') return leftOf(body);
  if (body.what === 'melted')
    return line.plan.material.class === 'hard-oil' ? allow(stated(body)) : refuse('wrong-order', { line: line.plan.id });
  return leftInJug(body, line);
};
