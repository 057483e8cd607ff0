import { describe, expect, it } from 'vitest';
import type { Append, JournalLine } from '#lib/record/journal';
import { benchRig, entriesIn, PHONE, TABLET } from '#tests/support/bench-rig';
import type { BenchRig } from '#tests/support/bench-rig';
import { deferred } from '#tests/support/deferred';
import { MemoryJournal } from '#tests/support/memory-journal';

/** A disk that writes when the test says so. */
class LateJournal extends MemoryJournal {
  #waits: Promise<void> | null = null;

  stall(): () => void {
    const { promise, resolve } = deferred();
    this.#waits = promise;
    return () => {
      this.#waits = null;
      resolve();
    };
  }

  override async append(what: Append): Promise<readonly JournalLine[]> {
    await this.#waits;
    return super.append(what);
  }
}

const NOTE = { kind: 'note', text: 'seen' } as const;
const heard = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));
const notes = async (rig: BenchRig): Promise<number> => (await entriesIn(rig.journal)).filter(({ kind }) => kind === 'noted').length;

/** A bench whose mailbox is busy with a line that the disk does not take yet; a note from the tablet waits behind it. */
const waiting = async () => {
  const journal = new LateJournal();
  const rig = benchRig({ journal });
  await rig.start();
  await rig.pass(100);
  const goOn = journal.stall();
  rig.stepWall(7_200_000);
  rig.inputs.tick();
  const answer = rig.intent(NOTE);
  await heard();
  return { rig, goOn, answer };
};

describe('A6: who leads the bench counts when the record comes to it, not when the tap was heard', () => {
  it('what waited is done for the page that still leads', async () => {
    const { rig, goOn, answer } = await waiting();
    goOn();
    expect(await answer).toMatchObject({ ok: true });
    expect(await notes(rig)).toBe(1);
  });

  it('what waited for a page that has lost the bench since is refused, and says so', async () => {
    const { rig, goOn, answer } = await waiting();
    rig.bench.takeLease(PHONE, 'phone');
    goOn();
    expect(await answer).toEqual({ ok: false, refusal: { code: 'not-in-control', params: {} } });
    expect(await notes(rig)).toBe(0);
    expect(await rig.intent(NOTE, {}, PHONE)).toMatchObject({ ok: true });
  });

  it('the same when it gave the bench back and nobody took it', async () => {
    const { rig, goOn, answer } = await waiting();
    rig.bench.releaseLease(TABLET);
    goOn();
    expect(await answer).toMatchObject({ ok: false, refusal: { code: 'not-in-control' } });
  });

  it('A5: what has run out meanwhile is not done late', async () => {
    const { rig, goOn, answer } = await waiting();
    rig.stand(3_001);
    goOn();
    expect(await answer).toMatchObject({ ok: false, refusal: { code: 'expired' } });
    expect(await notes(rig)).toBe(0);
  });
});
