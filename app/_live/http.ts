import type { BatchList, BatchListRow, MouldsFor, PlanList } from '#lib/protocol/http';
import { token } from './preferences';

/** What a page asks over HTTP: the few things that are no part of the live bench. */
const get = async <T>(path: string): Promise<T> => {
  const kept = token.read();
  const response = await fetch(path, { headers: kept === null ? {} : { authorization: `Bearer ${kept}` } });
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  return (await response.json()) as T;
};

export const fetchPlans = (): Promise<PlanList> => get('/api/plans');

export const fetchMoulds = (batch: string): Promise<MouldsFor> => get(`/api/batches/${encodeURIComponent(batch)}/moulds`);

/** One page of the list of batches: older than `before`, of one status or of any. */
export const batchesPath = (before: string | null, limit: number, status: BatchListRow['status'] | null): string => {
  const older = before === null ? '' : `&before=${encodeURIComponent(before)}`;
  return `/api/batches?limit=${limit}${older}${status === null ? '' : `&status=${status}`}`;
};

const PAGE = 200;

/** Every parked batch, newest first, however many there are. */
export const fetchParked = async (before: string | null = null): Promise<readonly BatchListRow[]> => {
  const { batches, next } = await get<BatchList>(batchesPath(before, PAGE, 'parked'));
  return next === null ? batches : [...batches, ...(await fetchParked(next))];
};
