import type { BenchIntent, IntentAnswer, IntentWant } from '#lib/protocol/intent';
import type { RecordLane } from '#lib/protocol/lanes';
import type { LiveFrame } from '#lib/protocol/live';
import type { BatchState, Entry } from '#lib/work/batch/index';
import { screenAt } from '#tests/support/server-rig';
import type { ScreenRig } from '#tests/support/server-rig';

const VALID_MS = 3_000;
const ALIVE_MS = 1_000;
const LABEL = 'endurance';

export interface Answered {
  readonly intent: BenchIntent;
  readonly answer: IntentAnswer;
}

/** One screen through every restart of its server. It keeps each line it was told and each answer it got: none of them may ever be untrue. */
export class Seat {
  readonly screen: ScreenRig;
  /** Lines of the record by batch, in order, as the server told them. */
  readonly told = new Map<string, string[]>();
  readonly answered: Answered[] = [];
  /** Sent, and nothing came back yet. */
  readonly unanswered = new Map<string, BenchIntent>();
  /** What the server took back of what it had told. */
  readonly broken: string[] = [];
  /** Called with every intent that leaves. */
  sent: () => void = () => undefined;
  #ids = 0;
  readonly #alive: NodeJS.Timeout;

  constructor(port: number) {
    this.screen = screenAt(port);
    this.screen.socket.on('hello', ({ batch }) => this.#take(batch));
    this.screen.socket.on('record', (lane) => this.#take(lane));
    // A machine that stood still for a while took the lease away.
    this.screen.socket.on('lease', ({ holder }) => {
      if (holder === null && this.screen.socket.connected) void this.screen.lease('take', LABEL);
    });
    this.#alive = setInterval(() => {
      if (this.screen.socket.connected) this.screen.socket.emit('alive', { visible: true, boot: this.boot });
    }, ALIVE_MS);
  }

  get boot(): string {
    return this.screen.hellos.at(-1)?.boot ?? 'none';
  }
  get batch(): BatchState | null {
    return this.screen.batch();
  }
  /** The newest frame of this boot; `null` before there is one. */
  get frame(): LiveFrame | null {
    const newest = this.screen.frames.at(-1);
    return newest?.boot === this.boot ? newest : null;
  }

  /** Waits for the server of another boot than `than`, and takes the lease. */
  async sitDown(than?: string): Promise<void> {
    await this.screen.greeted(than);
    await this.screen.lease('take', LABEL);
    if (this.frame === null) await this.screen.frame(({ boot }) => boot === this.boot);
  }

  /** Sends what this screen wants. Never resolves when the server dies before it answers. */
  async say(want: IntentWant): Promise<IntentAnswer> {
    const { batch, frame, boot } = this;
    this.#ids += 1;
    const fresh = want.kind === 'start';
    const intent: BenchIntent = {
      id: `endure-${process.pid}-${String(this.#ids).padStart(6, '0')}`,
      batch: fresh ? null : (batch?.id ?? null),
      expectedVersion: fresh ? null : (batch?.version ?? null),
      seen: { boot, episode: frame?.cue.episode ?? 0 },
      expires: (frame?.at ?? 0) + VALID_MS,
      want,
    };
    this.unanswered.set(intent.id, intent);
    const answer = this.send(intent);
    this.sent();
    return answer;
  }

  /** Sends an intent as it stands, for the first time or again. */
  async send(intent: BenchIntent): Promise<IntentAnswer> {
    const answer = await new Promise<IntentAnswer>((resolve) => this.screen.socket.emit('intent', intent, resolve));
    this.unanswered.delete(intent.id);
    this.answered.push({ intent, answer });
    return answer;
  }

  entries(batch: string): readonly Entry[] {
    return (this.told.get(batch) ?? []).map((line) => JSON.parse(line) as Entry);
  }

  leave(): void {
    clearInterval(this.#alive);
    this.screen.close();
  }

  #take({ batch, from, lines }: RecordLane): void {
    if (batch === null || from < 0) return;
    const known = this.told.get(batch) ?? [];
    if (from > 0) return void this.told.set(batch, [...known, ...lines]);
    const lost = known.findIndex((line, i) => lines[i] !== line);
    if (lost >= 0) this.broken.push(`line ${lost + 1} of ${known.length} told of ${batch} is not there any more: ${known[lost]}`);
    this.told.set(batch, [...lines]);
  }
}
