import { fork } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import type { Part } from './parts';
import type { Tally } from './tally';

/**
 * Runs every part in so many processes, each taking the next part when it is through with one. Tallies come back in the order of the
 * parts, so what is printed does not depend on who was quicker. Fails when a process does.
 */
export const runAll = async (parts: readonly Part[], processes: number, onDone: (done: number) => void): Promise<readonly Tally[]> => {
  const tallies: Tally[] = [];
  let next = 0;
  let done = 0;
  const worker = async (): Promise<void> => {
    const child = fork(fileURLToPath(new URL('./crew-member.ts', import.meta.url)), { serialization: 'advanced' });
    try {
      for (let index = next; index < parts.length; index = next) {
        next += 1;
        child.send(parts[index] as Part);
        tallies[index] = await answerOf(child);
        done += 1;
        onDone(done);
      }
    } finally {
      child.kill();
    }
  };
  await Promise.all(Array.from({ length: processes }, worker));
  return tallies;
};

const answerOf = async (child: ReturnType<typeof fork>): Promise<Tally> => {
  const gone = new AbortController();
  const died = once(child, 'exit', { signal: gone.signal }).then(([code]) => {
    throw new Error(`a calculating process ended early (${String(code)})`);
  });
  try {
    const [tally] = (await Promise.race([once(child, 'message', { signal: gone.signal }), died])) as [Tally];
    return tally;
  } finally {
    died.catch(() => undefined);
    gone.abort();
  }
};
