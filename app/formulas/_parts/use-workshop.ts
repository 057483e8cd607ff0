import { useMemo, useState } from 'react';
import type { WorkshopPage } from '#lib/protocol/shelf';
import { shelfApi } from '../../_ui/shelf-api';
import { SHARED_EVERY_MS, useAsked } from '../../_ui/use-asked';

export interface Workshop {
  /** The same object while nothing differs: a plan is not worked out again for the same workshop. */
  readonly workshop: WorkshopPage;
  /** Something came from another screen since the sheet was opened. */
  readonly arrived: boolean;
}

/** The workshop as it stands now: what another screen changes arrives while the sheet is looked at. */
export const useWorkshop = (first: WorkshopPage): Workshop => {
  const { asked } = useAsked(shelfApi.workshop, { key: 'workshop', everyMs: SHARED_EVERY_MS });
  const newest = asked.state === 'there' ? asked.value : first;
  const text = useMemo(() => JSON.stringify(newest.context), [newest]);
  const [held, setHeld] = useState({ text, context: newest.context, arrived: false });
  // What differs is taken at once, before anything is drawn of it.
  if (text !== held.text) setHeld({ text, context: newest.context, arrived: true });
  const workshop = useMemo(() => ({ ...newest, context: held.context }), [newest, held]);
  return { workshop, arrived: held.arrived };
};
