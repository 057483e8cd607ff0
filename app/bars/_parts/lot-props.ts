import type { BarsPage } from '#lib/protocol/bars';

/** What a section is given: the lot as the record has it, and the way to look again. */
export interface LotProps {
  readonly page: BarsPage;
  readonly again: () => void;
}
