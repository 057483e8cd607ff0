'use client';
import { lazy, Suspense, useEffect } from 'react';
import type { ComponentProps } from 'react';

const fetchSheets = () => import('./late-sheets');
const fetchTemperatures = () => import('./temperatures');
const fetchStart = () => import('./start');

const Sheets = lazy(fetchSheets);
const Temperatures = lazy(async () => ({ default: (await fetchTemperatures()).Temperatures }));
const Start = lazy(async () => ({ default: (await fetchStart()).Start }));

type LateProps =
  | ({ readonly part: 'sheet' } & ComponentProps<typeof Sheets>)
  | ({ readonly part: 'temperatures' } & ComponentProps<typeof Temperatures>)
  | { readonly part: 'start' };

/** Parts that the first frame of a weighing does not need. */
export function Late(props: LateProps) {
  return (
    <Suspense fallback={null}>
      {props.part === 'sheet' ? <Sheets sheet={props.sheet} /> : null}
      {props.part === 'temperatures' ? <Temperatures frame={props.frame} /> : null}
      {props.part === 'start' ? <Start /> : null}
    </Suspense>
  );
}

/** Fetches them all right after the page, not when they are shown: then the server may be gone. */
export const useLateParts = (): void =>
  useEffect(() => {
    for (const fetchPart of [fetchSheets, fetchTemperatures, fetchStart]) void fetchPart();
  }, []);
