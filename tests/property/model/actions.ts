import fc from '#tests/support/property';
import type { ScaleRole } from '#lib/measure/instrument';
import type { MassUnit } from '#lib/units/mass';
import type { DiskMode } from '#tests/support/model/journal';
import type { Oddity } from '#tests/support/model/frame';

/** The two screens. */
export type Which = 'tablet' | 'phone';

/** What a screen was looking at when it spoke: what is so now, what it last looked at, or something it cannot have seen. */
export type Seen = 'now' | 'before' | 'wrong boot' | 'wrong episode' | 'no version' | 'expired';

/** How often one press is sent: `both` is the same id twice at once, `double` two ids. */
export type Times = 'once' | 'both' | 'double';

/** A wish with what only the moment knows left open. */
export type Wish =
  | { readonly want: 'strike'; readonly back: number; readonly reason: 'undone' | 'wrong-material' | 'over-poured'; readonly held: boolean }
  | { readonly want: 'type-weight'; readonly aim: 'within' | 'over' | 'part'; readonly readBack: boolean; readonly held: boolean }
  | { readonly want: 'type-temperature'; readonly use: 'lye' | 'oils'; readonly degrees: number }
  | { readonly want: 'part-pour' | 'weigh-back' | 'away' | 'return' | 'park' | 'take-up' | 'close' | 'note' | 'choose-lot' | 'start' }
  | { readonly want: 'abandon' | 'join' | 'dissolve' | 'override'; readonly held: boolean }
  | { readonly want: 'move' | 'withdraw' | 'lose' | 'split'; readonly from: number; readonly share: number }
  | {
      readonly want: 'pour';
      readonly what: 'pattern' | 'by gain' | 'by loss' | 'typed' | 'left' | 'photo' | 'wrong';
      readonly pick: number;
    }
  | { readonly want: 'stamp-trace' | 'check-scale' };

/** One thing that happens. Plain data: a counterexample is a list of these. */
export type Action =
  /** The maker does what the bench asks for, with hands or with a press, and waits a while. */
  | { readonly do: 'help'; readonly times: number }
  | { readonly do: 'wait'; readonly ms: number; readonly hear: boolean }
  | { readonly do: 'set-down'; readonly vessel: number; readonly role: ScaleRole }
  | { readonly do: 'lift'; readonly role: ScaleRole }
  | { readonly do: 'pour'; readonly how: 'left' | 'half' | 'over' | 'far over' | 'drop' | 'out'; readonly ms: number }
  | { readonly do: 'pour in hand'; readonly vessel: number; readonly grams: number }
  | { readonly do: 'shake'; readonly role: ScaleRole; readonly ms: number }
  | { readonly do: 'odd'; readonly role: ScaleRole; readonly oddity: Oddity }
  | { readonly do: 'burst'; readonly role: ScaleRole; readonly count: number }
  | { readonly do: 'stand still'; readonly ms: number }
  | { readonly do: 'lose'; readonly role: ScaleRole; readonly ms: number }
  | { readonly do: 'unit'; readonly role: ScaleRole; readonly unit: MassUnit }
  | { readonly do: 'tare'; readonly role: ScaleRole }
  | { readonly do: 'jump'; readonly ms: number; readonly kind: 'wall' | 'suspend' }
  | { readonly do: 'probes'; readonly lye: number | null; readonly oils: number | null }
  | {
      readonly do: 'press';
      readonly by: Which;
      readonly key: 'go-on' | 'back' | 'silence';
      readonly hold: boolean;
      readonly seen: Seen;
      readonly times: Times;
    }
  | { readonly do: 'take'; readonly by: Which; readonly card: number; readonly hold: boolean; readonly seen: Seen; readonly times: Times }
  | { readonly do: 'say'; readonly by: Which; readonly wish: Wish; readonly seen: Seen; readonly times: Times }
  /** The card that asks for it is taken, if it is there; then what stands on the pan is lifted and set down again. */
  | { readonly do: 'lift and look'; readonly by: Which; readonly role: ScaleRole; readonly ms: number }
  /** Accept, cross out, and go on again before the scale has said anything new. */
  | { readonly do: 'undo and tap again'; readonly by: Which; readonly pause: number }
  | { readonly do: 'again'; readonly by: Which; readonly back: number }
  | { readonly do: 'look'; readonly by: Which }
  | { readonly do: 'lease'; readonly by: Which; readonly want: 'take' | 'release' }
  | { readonly do: 'dark'; readonly by: Which; readonly on: boolean }
  | { readonly do: 'link'; readonly by: Which; readonly up: boolean }
  | { readonly do: 'disk'; readonly mode: DiskMode }
  | { readonly do: 'crash' };

/** One whole run. */
export interface Story {
  readonly seed: number;
  readonly plan: string;
  readonly period: number;
  readonly marked: boolean;
  readonly actions: readonly Action[];
}

const which = fc.constantFrom<Which>('tablet', 'tablet', 'phone');
const role = fc.constantFrom<ScaleRole>('main', 'main', 'fine');
const seen = fc.constantFrom<Seen>('now', 'now', 'now', 'now', 'before', 'wrong boot', 'wrong episode', 'no version', 'expired');
const times = fc.constantFrom<Times>('once', 'once', 'both', 'double');
const hold = fc.boolean();

const wish: fc.Arbitrary<Wish> = fc.oneof(
  fc.record({
    want: fc.constant('strike' as const),
    back: fc.nat(3),
    reason: fc.constantFrom('undone' as const, 'wrong-material' as const, 'over-poured' as const),
    held: hold,
  }),
  fc.record({
    want: fc.constant('type-weight' as const),
    aim: fc.constantFrom('within' as const, 'within' as const, 'over' as const, 'part' as const),
    readBack: fc.constantFrom(true, true, false),
    held: hold,
  }),
  fc.record({
    want: fc.constant('type-temperature' as const),
    use: fc.constantFrom('lye' as const, 'oils' as const),
    degrees: fc.integer({ min: 20, max: 70 }),
  }),
  fc.record({
    want: fc.constantFrom(
      'part-pour' as const,
      'weigh-back' as const,
      'away' as const,
      'return' as const,
      'park' as const,
      'take-up' as const,
      'close' as const,
      'note' as const,
      'choose-lot' as const,
      'start' as const,
    ),
  }),
  fc.record({ want: fc.constantFrom('abandon' as const, 'join' as const, 'dissolve' as const, 'override' as const), held: hold }),
  fc.record({
    want: fc.constantFrom('move' as const, 'withdraw' as const, 'lose' as const, 'split' as const),
    from: fc.nat(4),
    share: fc.constantFrom(10, 100, 120),
  }),
  fc.record({
    want: fc.constant('pour' as const),
    what: fc.constantFrom(
      'pattern' as const,
      'by gain' as const,
      'by loss' as const,
      'typed' as const,
      'left' as const,
      'photo' as const,
      'wrong' as const,
    ),
    pick: fc.nat(5),
  }),
  fc.record({ want: fc.constantFrom('stamp-trace' as const, 'check-scale' as const) }),
);

const what = <T extends Action['do']>(name: T): fc.Arbitrary<T> => fc.constant(name);
const ms = (min: number, max: number): fc.Arbitrary<number> => fc.integer({ min, max }).map((value) => value * 50);

/** Work goes on three times out of five, or nothing would ever be reached; the rest is what goes wrong. */
export const action: fc.Arbitrary<Action> = fc.oneof(
  { weight: 60, arbitrary: fc.record({ do: what('help'), times: fc.integer({ min: 1, max: 4 }) }) },
  { weight: 6, arbitrary: fc.record({ do: what('wait'), ms: ms(2, 60), hear: fc.constantFrom(true, true, false) }) },
  { weight: 3, arbitrary: fc.record({ do: what('set-down'), vessel: fc.nat(6), role }) },
  { weight: 3, arbitrary: fc.record({ do: what('lift'), role }) },
  {
    weight: 6,
    arbitrary: fc.record({
      do: what('pour'),
      how: fc.constantFrom('left' as const, 'half' as const, 'over' as const, 'far over' as const, 'drop' as const, 'out' as const),
      ms: ms(4, 40),
    }),
  },
  { weight: 2, arbitrary: fc.record({ do: what('pour in hand'), vessel: fc.nat(6), grams: fc.integer({ min: -20, max: 60 }) }) },
  { weight: 2, arbitrary: fc.record({ do: what('shake'), role, ms: ms(4, 40) }) },
  { weight: 2, arbitrary: fc.record({ do: what('odd'), role, oddity: fc.constantFrom<Oddity>('over', 'beyond-capacity') }) },
  { weight: 2, arbitrary: fc.record({ do: what('burst'), role, count: fc.integer({ min: 2, max: 6 }) }) },
  { weight: 2, arbitrary: fc.record({ do: what('stand still'), ms: ms(6, 80) }) },
  { weight: 3, arbitrary: fc.record({ do: what('lose'), role, ms: ms(1, 60) }) },
  { weight: 1, arbitrary: fc.record({ do: what('unit'), role, unit: fc.constantFrom<MassUnit>('g', 'g', 'kg', 'lb', 'oz') }) },
  { weight: 1, arbitrary: fc.record({ do: what('tare'), role }) },
  {
    weight: 1,
    arbitrary: fc.record({
      do: what('jump'),
      ms: fc.constantFrom(-7_200_000, 7_200_000, 5_000),
      kind: fc.constantFrom('wall' as const, 'suspend' as const),
    }),
  },
  {
    weight: 3,
    arbitrary: fc.record({ do: what('probes'), lye: fc.constantFrom(null, 40, 42, 60, 25), oils: fc.constantFrom(null, 41, 43, 55, 33) }),
  },
  {
    weight: 8,
    arbitrary: fc.record({
      do: what('press'),
      by: which,
      key: fc.constantFrom('go-on' as const, 'go-on' as const, 'go-on' as const, 'back' as const, 'silence' as const),
      hold,
      seen,
      times,
    }),
  },
  { weight: 5, arbitrary: fc.record({ do: what('take'), by: which, card: fc.nat(3), hold, seen, times }) },
  { weight: 10, arbitrary: fc.record({ do: what('say'), by: which, wish, seen, times }) },
  { weight: 2, arbitrary: fc.record({ do: what('lift and look'), by: which, role, ms: ms(4, 60) }) },
  { weight: 4, arbitrary: fc.record({ do: what('undo and tap again'), by: which, pause: ms(11, 24) }) },
  { weight: 3, arbitrary: fc.record({ do: what('again'), by: which, back: fc.nat(4) }) },
  { weight: 3, arbitrary: fc.record({ do: what('look'), by: which }) },
  {
    weight: 3,
    arbitrary: fc.record({ do: what('lease'), by: which, want: fc.constantFrom('take' as const, 'take' as const, 'release' as const) }),
  },
  { weight: 2, arbitrary: fc.record({ do: what('dark'), by: which, on: fc.boolean() }) },
  { weight: 4, arbitrary: fc.record({ do: what('link'), by: which, up: fc.boolean() }) },
  {
    weight: 4,
    arbitrary: fc.record({
      do: what('disk'),
      mode: fc.constantFrom<DiskMode>('prompt', 'prompt', 'late', 'unacknowledged', 'fails', 'read-only'),
    }),
  },
  { weight: 3, arbitrary: fc.record({ do: what('crash') }) },
);

/** Stories of up to `longest` things that happen, of batches by these plans. */
export const story = (plans: readonly string[], longest = 60): fc.Arbitrary<Story> =>
  fc.record({
    seed: fc.nat(1_000_000),
    plan: fc.constantFrom(...plans),
    period: fc.constantFrom(100, 200, 333, 500),
    marked: fc.boolean(),
    actions: fc.array(action, { minLength: 1, maxLength: longest, size: 'max' }),
  });
