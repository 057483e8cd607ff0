import { describe, expect, it } from 'vitest';
import { JournalReadOnly } from '#lib/record/journal';
import { appendOf, entryOf } from '#tests/support/appends';
import { journalContract } from '#tests/support/journal-contract';
import { MemoryJournal } from '#tests/support/memory-journal';

journalContract('in memory', async () => ({ journal: new MemoryJournal(), close: async () => undefined }));

describe('MemoryJournal', () => {
  it('refuses every append once stopped, and goes on reading', async () => {
    const journal = new MemoryJournal();
    await journal.append(appendOf([entryOf('a', 1)]));
    journal.stop('damage');
    await expect(journal.append(appendOf([entryOf('a', 2)]))).rejects.toThrow(JournalReadOnly);
    expect((await journal.linesOf('a')).length).toBe(1);
  });
});
