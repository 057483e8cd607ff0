import type { BatchList, PlanList } from '#lib/protocol/http';
import { token } from './preferences';

/** What a page asks over HTTP: the few things that are no part of the live bench. */
const get = async <T>(path: string): Promise<T> => {
  const kept = token.read();
  const response = await fetch(path, { headers: kept === null ? {} : { authorization: `Bearer ${kept}` } });
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  return (await response.json()) as T;
};

export const fetchPlans = (): Promise<PlanList> => get('/api/plans');
export const fetchBatches = (limit: number): Promise<BatchList> => get(`/api/batches?limit=${limit}`);
