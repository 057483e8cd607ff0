import { spawn } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';

/** A program of ours in a process of its own, with what it said. */
export interface Child {
  readonly process: ChildProcess;
  readonly said: readonly string[];
  /** Resolves with the first line that begins so, said already or still to come; rejects when the program ends without it. */
  line(start: string): Promise<string>;
  /** Resolves when the program has ended and everything it said was read. */
  ended(): Promise<void>;
}

/** Runs a TypeScript program. `before` goes in front of node: a tracer, for one. */
export const runChild = (program: string, args: readonly string[], before: readonly string[] = []): Child => {
  const [command = '', ...rest] = [...before, process.execPath, '--import', 'tsx', program, ...args];
  const child = spawn(command, rest, { stdio: ['pipe', 'pipe', 'inherit'] });
  const said: string[] = [];
  const lines = createInterface({ input: child.stdout });
  lines.on('line', (line) => said.push(line));
  const closed = once(lines, 'close');
  const exited = once(child, 'exit');
  return {
    process: child,
    said,
    line: async (start) => {
      for (;;) {
        const found = said.find((line) => line.startsWith(start));
        if (found !== undefined) return found;
        const more = await Promise.race([once(lines, 'line').then(() => true), closed.then(() => false)]);
        if (!more && !said.some((line) => line.startsWith(start))) throw new Error(`ended without "${start}": ${said.join(' | ')}`);
      }
    },
    ended: async () => {
      await Promise.all([closed, exited]);
    },
  };
};
