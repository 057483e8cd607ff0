import { toEntry } from '#lib/work/bars/complete';
import { barsIdOf, decide, evolve } from '#lib/work/bars/index';
import type { BarsCommand, BarsCommandBodies, BarsCommandKind, BarsEntry, BarsState } from '#lib/work/bars/index';
import type { Workshop } from '#lib/work/bars/offered';
import type { BatchState } from '#lib/work/batch/index';
import { as } from '#lib/units/id';
import type { BootId, EntryId, PersonId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import type { Random } from '../../world/random';
import { SCALES } from '../recorder';
import type { KeptPictures } from './pictures';

/** What happens to bars, and until when: nothing of it lies in the future. */
export interface Life {
  readonly batch: BatchState;
  readonly workshop: Workshop;
  readonly now: number;
  readonly offsetMin: number;
  readonly person: PersonId;
  readonly buyers: readonly PersonId[];
  readonly random: Random;
  readonly check: EntryId | null;
  readonly pictures: KeptPictures;
}

/** A bar lot of the invented past, decided entry by entry. */
export class Lot {
  readonly entries: BarsEntry[] = [];
  #state: BarsState | null = null;
  #episode = 0;
  readonly #life: Life;
  readonly #id;

  constructor(life: Life, n: number) {
    this.#life = life;
    this.#id = barsIdOf(life.batch.id, n);
  }

  get state(): BarsState {
    if (this.#state === null) throw new Error('the bars have not begun');
    return this.#state;
  }

  /** At a moment that has been; `false`: it lies ahead, and nothing happened. Throws with the code of a refusal. */
  do<K extends BarsCommandKind>(
    wall: number,
    kind: K,
    body: BarsCommandBodies[K],
    settled: BarsCommand['observation']['settled'] = null,
  ): boolean {
    const { now, offsetMin, person } = this.#life;
    if (wall > now) return false;
    const via = kind === 'weigh' ? ('bench' as const) : ('screen' as const);
    const head = { by: person, via, intent: null, boot: as<BootId>(`boot-${this.#id}`), mono: 0, wall: Math.round(wall), offsetMin };
    const observation = { settled, armed: null, spent: 0 };
    const command = { ...head, lot: this.#id, expectedVersion: null, role: 'maker', observation, kind, body } as unknown as BarsCommand;
    const decision = decide(this.#state, command);
    if (!decision.ok) throw new Error(`${kind}: ${decision.refusal.code} ${JSON.stringify(decision.refusal.params)}`);
    for (const one of decision.drafts) {
      const version = (this.#state?.version ?? 0) + 1;
      const entry = toEntry(one, {
        ...head,
        id: as<EntryId>(`${this.#id}-${version}`),
        batch: this.#id,
        version,
        realm: this.#life.batch.realm,
        v: 1,
      });
      this.entries.push(entry);
      this.#state = evolve(this.#state, entry);
    }
    return true;
  }

  /** One bar on the big scale; against its label no bar has a number. */
  weigh(wall: number, bar: number | null, weight: number): boolean {
    const [{ id: instrument, step }] = SCALES;
    const net = mg(Math.round(weight / step) * step);
    this.#episode += 1;
    const episode = this.#episode;
    const text = (net / 1000).toFixed(1);
    const weighed = {
      gross: net,
      zero: mg(0),
      net,
      text,
      unit: 'g' as const,
      step,
      raw: btoa(`ST,GS,${text.padStart(9)} g\r\n`),
      instrument,
      check: this.#life.check,
      episode,
      strip: null,
    };
    return this.do(
      wall,
      'weigh',
      { bar, for: bar === null ? 'net' : 'cure', weighed, how: 'by-itself' },
      { instrument, gross: net, episode },
    );
  }
}
