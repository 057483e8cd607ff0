import { setTimeout } from 'node:timers/promises';
import type { VerifyState } from '#lib/protocol/proof';
import { findingsOf } from '../store/check';
import type { Store } from '../store/store';

/** Whoever asks is answered within this, with what is known then: a page does not wait for ever. */
const PATIENCE_MS = 5_000;

/** One check of the whole record at a time, however many ask for it. */
export const wholeCheck = (store: () => Store): { begin(): Promise<VerifyState>; state(): VerifyState } => {
  let state: VerifyState = { state: 'none' };
  let running: Promise<void> | null = null;
  const check = async (): Promise<void> => {
    state = { state: 'running' };
    try {
      const found = await store().verify();
      const lines = found.bench.head.seq + found.workshop.head.seq;
      state = { state: 'done', ok: found.ok, lines, withdrawn: found.withdrawn.length, findings: findingsOf(found) };
    } catch (cause) {
      state = { state: 'none' };
      throw cause;
    } finally {
      running = null;
    }
  };
  return {
    async begin() {
      running ??= check();
      await Promise.race([running, setTimeout(PATIENCE_MS, undefined, { ref: false })]);
      return state;
    },
    state: () => state,
  };
};
