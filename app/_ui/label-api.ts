import * as z from 'zod/mini';
import type { LabelPage } from '#lib/protocol/label';
import { ask } from './api';
import type { Answer } from './api';

const checks = z.array(z.looseObject({ what: z.string(), state: z.string() }));
/** The outline of the answer, as in `api`. */
const label = z.looseObject({
  id: z.string(),
  mark: z.string(),
  list: z.looseObject({ items: z.array(z.looseObject({ name: z.string(), mass: z.int() })), unnamed: z.array(z.string()) }),
  materials: z.array(z.looseObject({ id: z.string(), name: z.string() })),
  settings: z.looseObject({}),
  eu: checks,
  us: checks,
});

type Sheet = 'a4' | 'letter' | null;
const onSheet = (sheet: Sheet): string => (sheet === null ? '' : `&sheet=${sheet}`);
const query = (id: string): string => `id=${encodeURIComponent(id)}`;

export const labelApi = {
  label: (id: string): Promise<Answer<LabelPage>> => ask(label, `/api/labels?${query(id)}`),
  /** `version`: of the settings, so that a change is drawn anew. */
  svg: (id: string, version: string, sheet: Sheet = null): string =>
    `/api/labels/label.svg?${query(id)}&v=${encodeURIComponent(version)}${onSheet(sheet)}`,
  pdf: (id: string, sheet: Sheet): string => `/api/labels/label.pdf?${query(id)}${onSheet(sheet)}`,
} as const;
