'use client';
import { useId, useMemo, useState } from 'react';
import type { ReactNode } from 'react';
import type { Derivation } from '#lib/work/formula/index';
import type { Sheet } from './use-sheet';
import { SheetProvider, useSheet } from './use-sheet';

/** Figures of another plan than the sheet's, or the same ones in a second place: they open where they stand, to workings of their own. */
export function OwnWorkings({ derivations, children }: { readonly derivations: readonly Derivation[]; readonly children: ReactNode }) {
  const sheet = useSheet();
  const slips = useId();
  const [open, setOpen] = useState<string | null>(null);
  const own = useMemo<Sheet>(
    () => ({
      ...sheet,
      slips,
      open,
      derivation: (id) => derivations.find((one) => one.id === id),
      toggle: (id) => setOpen((before) => (before === id ? null : id)),
    }),
    [sheet, slips, open, derivations],
  );
  return <SheetProvider value={own}>{children}</SheetProvider>;
}
