import { as } from '#lib/units/id';
import type { LineId } from '#lib/units/id';
import type { BatchState, LotDespite, Plan, Refusal, Want } from '#lib/work/batch/index';
import { own } from '#lib/work/batch/own';
import type { Meaning } from './wants';

/** What the stores say of a lot for one material. `unknown`: they have none such; `other`: it is of another material. */
export type LotAnswer =
  | { readonly is: 'lot'; readonly id: string; readonly mark: string; readonly fault: LotDespite | null }
  | { readonly is: 'unknown' | 'unclear' | 'other' };

/** The stores as the bench asks them. */
export interface LotStores {
  /** By what a reader of barcodes sent. */
  scanned(text: string, material: string): LotAnswer;
  /** By its id; `null`: the stores do not keep it. */
  kept(id: string, material: string): LotAnswer | null;
}

type Choice = Extract<Meaning, { is: 'lot' | 'scan' }>;

/** What a lot is called, whether it is of this material and may be used is the stores' to say, never the screen's. */
export const chosenLot = (stores: LotStores | undefined, batch: BatchState, choice: Choice): Want | Refusal => {
  const id = choice.is === 'lot' ? choice.line : batch.open;
  const line = id === null ? undefined : own(batch.lines, id);
  if (line === undefined) return { code: 'no-such', params: { what: 'line', id: id ?? '' } };
  const { material } = line.plan;
  const answer =
    choice.is === 'scan' ? (stores?.scanned(choice.text, material.id) ?? { is: 'unknown' }) : keptAs(stores, choice, material.id);
  if (answer.is !== 'lot') return { code: `lot-${answer.is}`, params: { material: material.name } };
  if (line.plan.lot?.id === answer.id) return { code: 'already-done', params: {} };
  return { kind: 'choose-lot', body: choiceOf(line.plan.id, answer, choice.held) };
};

const keptAs = (stores: LotStores | undefined, { lot }: Extract<Choice, { is: 'lot' }>, material: string): LotAnswer =>
  // Lots of typed plans stand on no shelf.
  stores?.kept(lot.id, material) ?? { is: 'lot', ...lot, fault: null };

const choiceOf = (
  line: LineId,
  { id, mark, fault }: Extract<LotAnswer, { is: 'lot' }>,
  held: boolean,
): Extract<Want, { kind: 'choose-lot' }>['body'] => ({ line, lot: { id: as(id), mark }, held, ...(fault === null ? {} : { fault }) });

/** Lots of a plan that should not be weighed from. */
export const unfitIn = (
  stores: LotStores | undefined,
  { lines }: Plan,
): readonly { readonly line: LineId; readonly lot: NonNullable<Plan['lines'][number]['lot']>; readonly fault: LotDespite }[] =>
  lines.flatMap(({ id: line, lot, material }) => {
    const answer = lot === null ? null : (stores?.kept(lot.id, material.id) ?? null);
    return lot === null || answer?.is !== 'lot' || answer.fault === null ? [] : [{ line, lot, fault: answer.fault }];
  });
