import { blank } from '../../batch/decide/checks';
import { isStatable } from '../../label/net-statement';
import type { BarsState } from '../state';
import { allow, draft, refuse, type BarsDecider, type BarsDecision } from './decision';

const DAY_MS = 86_400_000;
const SHA256 = /^[0-9a-f]{64}$/;

export const isFraction = (humidity: number | null): boolean => humidity === null || (humidity >= 0 && humidity <= 1_000_000);

export const label: BarsDecider<'label'> = (_state, { body }) =>
  isStatable(body.net) ? allow(draft('bars-labelled', body)) : refuse('bad-number', { what: 'net' });

export const photo: BarsDecider<'photo'> = (state, { body, wall }) => {
  if (!SHA256.test(body.sha256)) return refuse('no-such', { what: 'photo' });
  if (state.photos.some(({ sha256, struck }) => struck === null && sha256 === body.sha256))
    return refuse('already-done', { what: 'photo' });
  return allow(draft('bars-photo', { ...body, day: Math.max(0, Math.floor((wall - state.poured) / DAY_MS)) }));
};

export const note: BarsDecider<'note'> = (_state, { body }) => {
  if (!isFraction(body.humidity)) return refuse('bad-number', { what: 'humidity' });
  return blank(body.text) && body.room === null && body.humidity === null
    ? refuse('no-such', { what: 'text' })
    : allow(draft('bars-noted', body));
};

export const move: BarsDecider<'move'> = (state, { body }) => {
  if (blank(body.place)) return refuse('no-such', { what: 'place' });
  return body.place === state.place?.name ? refuse('already-done', { what: 'place' }) : allow(draft('bars-moved', body));
};

export const hold: BarsDecider<'hold'> = (state, { body }) => {
  if (blank(body.reason)) return refuse('no-such', { what: 'reason' });
  return state.held === null ? allow(draft('bars-held', body)) : refuse('already-done', { what: 'held' });
};

export const release: BarsDecider<'release'> = (state, { body }) =>
  state.held === null ? refuse('already-done', { what: 'held' }) : allow(draft('bars-released', body));

/** Held bars are neither sold nor given nor taken along. */
export const notForSale = ({ cut, held }: BarsState): BarsDecision | null => {
  if (cut === null) return refuse('wrong-order', { before: 'cut' });
  return held === null ? null : refuse('wrong-state', { status: 'held', reason: held.reason });
};
