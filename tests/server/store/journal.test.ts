import { openStore } from '#server/store/open';
import { journalContract } from '#tests/support/journal-contract';
import { storeRig } from '#tests/support/store-rig';

for (const name of ['bench', 'workshop'] as const) {
  journalContract(`SQLite, ${name}`, async () => {
    const rig = storeRig();
    const store = await openStore(rig.options);
    return {
      journal: store[name],
      close: async () => {
        await store.close();
        rig.remove();
      },
    };
  });
}
