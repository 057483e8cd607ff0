import { createHash } from 'node:crypto';
import type { Letter } from '#lib/bench/mailbox';
import { as } from '#lib/units/id';
import type { BatchId, IntentId } from '#lib/units/id';
import type { Command, CommandBodies, CommandHead, CommandKind, Decision } from '#lib/work/batch/index';
import { BatchRig, planOf } from '#tests/support/batch';

/** Half a minute of ten readings a second with two probes, as the bench packs them. */
const STRIP_BYTES = 4000;

/** Keeps the commands that were allowed: a whole batch as a bench would send it, from the start to the joining. */
class Recorder extends BatchRig {
  readonly commands: Command[] = [];

  override send<K extends CommandKind>(kind: K, body: CommandBodies[K], head: Partial<CommandHead> = {}): Decision {
    const before = this.mono;
    const decision = super.send(kind, body, head);
    if (!decision.ok || decision.drafts.length === 0) return decision;
    this.mono = before;
    this.commands.push(this.command(kind, body, head));
    return decision;
  }
}

/** The letters of one batch: every command with an intent of its own, every weight with the strip of its pour. */
export const batchLetters = (batch: string): readonly Letter[] => {
  const rig = new Recorder();
  rig.must('start', { mark: batch, plan: planOf('alder-and-oat'), realm: 'practice', bench: 'bench 1' });
  rig.weighAll().makeLye().join();
  return rig.commands.map((command, i) => letter(command, batch, i));
};

const letter = (command: Command, batch: string, i: number): Letter => {
  const addressed = { ...command, batch: as<BatchId>(batch), intent: as<IntentId>(`${batch}-intent-${i}`) };
  if (addressed.kind !== 'accept') return { command: addressed };
  const strip = stripOf(`${batch} ${i}`);
  const weighed = { ...addressed.body.weighed, raw: 'U1QsR1MsKzAwMDkxMi40MCAgZw0K', strip: strip.sha256 };
  return { command: { ...addressed, body: { ...addressed.body, weighed } }, blobs: [strip] };
};

/** Bytes that do not repeat. */
const stripOf = (name: string) => {
  const parts = Array.from({ length: STRIP_BYTES / 32 }, (_, n) => createHash('sha256').update(`${name} ${n}`).digest());
  const bytes = new Uint8Array(Buffer.concat(parts));
  return { sha256: createHash('sha256').update(bytes).digest('hex'), kind: 'strip', bytes };
};
