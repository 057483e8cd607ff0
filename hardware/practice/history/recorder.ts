import { as } from '#lib/units/id';
import type { BatchId, BootId, EntryId, InstrumentId, PersonId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import { decide, evolve, toEntry } from '#lib/work/batch/index';
import type { BatchState, Command, CommandBodies, CommandKind, Entry, Observation, Realm } from '#lib/work/batch/index';

/** Where and when a batch of the invented past was made. */
export interface Setting {
  readonly batch: string;
  readonly realm: Realm;
  readonly person: PersonId;
  /** Wall time of its beginning, ms. */
  readonly wall: number;
  readonly offsetMin: number;
  /** Newest check of each scale before it. */
  readonly checks: Readonly<Record<string, EntryId>>;
}

/** Takes one batch through the rules themselves: what comes out is what the bench would have entered. */
export class Recorder {
  readonly entries: Entry[] = [];
  #state: BatchState | null = null;
  /** Milliseconds since its beginning. */
  #mono = 0;
  #episode = 0;
  #standing: Observation['settled'] = null;
  readonly #checks: Record<string, EntryId>;
  readonly #setting: Setting;
  temperatures: { readonly [K in 'lye' | 'oils' | 'batter']: Observation['lye'] } = { lye: null, oils: null, batter: null };

  constructor(setting: Setting) {
    this.#setting = setting;
    this.#checks = { ...setting.checks };
  }

  get state(): BatchState {
    if (this.#state === null) throw new Error('the batch has not begun');
    return this.#state;
  }

  /** The newest check of each scale, those of this batch among them. */
  get checks(): Readonly<Record<string, EntryId>> {
    return this.#checks;
  }

  wait(ms: number): void {
    this.#mono += Math.round(ms);
  }

  /** A weight stands settled on a scale; its episode. */
  settle(instrument: InstrumentId, gross: Milligrams): number {
    this.#episode += 1;
    this.#standing = { instrument, gross, episode: this.#episode };
    return this.#episode;
  }

  empty(): void {
    this.#standing = null;
  }

  /** Whether the rules would let that be done now. */
  may<K extends CommandKind>(kind: K, body: CommandBodies[K]): boolean {
    return decide(this.#state, this.#command(kind, body, 'person')).ok;
  }

  /** Decides and enters. Throws with the code of a refusal: an invented past that the rules refuse is a mistake here. */
  do<K extends CommandKind>(kind: K, body: CommandBodies[K], by: 'person' | 'program' = 'person'): readonly Entry[] {
    const command = this.#command(kind, body, by);
    const decision = decide(this.#state, command);
    if (!decision.ok) throw new Error(`${kind}: ${decision.refusal.code} ${JSON.stringify(decision.refusal.params)}`);
    return decision.drafts.map((draft) => {
      const version = (this.#state?.version ?? 0) + 1;
      const { batch, via, intent, boot, mono, wall, offsetMin } = command;
      const id = as<EntryId>(`${batch}-${version}`);
      const entry = toEntry(draft, {
        id,
        batch,
        version,
        realm: this.#setting.realm,
        v: 1,
        by: command.by,
        via,
        intent,
        boot,
        mono,
        wall,
        offsetMin,
      });
      this.entries.push(entry);
      this.#state = evolve(this.#state, entry);
      if (entry.kind === 'scale-checked') this.#checks[entry.body.instrument] = entry.id;
      return entry;
    });
  }

  #command<K extends CommandKind>(kind: K, body: CommandBodies[K], by: 'person' | 'program'): Command {
    const { batch, person, wall, offsetMin } = this.#setting;
    const head = {
      batch: as<BatchId>(batch),
      by: person,
      via: by === 'person' ? 'screen' : 'bench',
      role: by === 'person' ? 'maker' : 'program',
      intent: null,
      boot: as<BootId>(`boot-${batch}`),
      mono: this.#mono,
      wall: wall + this.#mono,
      offsetMin,
      expectedVersion: null,
      observation: this.#seen(),
    };
    return { ...head, kind, body } as unknown as Command;
  }

  #seen(): Observation {
    return { settled: this.#standing, ...this.temperatures, milk: null, checks: this.#checks, scales: SCALES.map(({ id }) => id) };
  }
}

/** The scales of the invented bench, with what each counts in. */
export const SCALES = [
  { id: as<InstrumentId>('scale-main'), role: 'main', step: 100 as Milligrams },
  { id: as<InstrumentId>('scale-fine'), role: 'fine', step: 10 as Milligrams },
] as const;
