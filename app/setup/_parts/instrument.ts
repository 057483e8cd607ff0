import type { InstrumentsPage } from '#lib/protocol/http';

export type Instrument = InstrumentsPage['instruments'][number];

/** Takes what the server answered: the instruments as they are then. */
export type Put = (page: InstrumentsPage) => void;
