import type { BenchIntent, IntentAnswer, IntentWant, LeaseWant, SceneAct } from '#lib/protocol/intent';
import { PROTOCOL_VERSION } from '#lib/protocol/lanes';
import type { Hello, LeaseView, RecordLane, ScreenAuth } from '#lib/protocol/lanes';
import type { LiveFrame } from '#lib/protocol/live';
import type { BatchState, RefusalCode } from '#lib/work/batch/index';
import { blankFrame } from './blank';
import { createFreshness } from './freshness';
import type { PageClock } from './freshness';
import { share } from './share';
import type { LiveStore, Notice } from './store';
import type { Wire, WireHandlers } from './socket';

/** What the page folds a record lane into. `unreadable` says why it cannot: an unknown kind or version is looked at, not acted on. */
export interface Folded {
  readonly batch: BatchState | null;
  readonly unreadable: string | null;
}

export interface LiveDeps {
  readonly store: LiveStore;
  /** A change by a reading: see `Drawing`. */
  readonly digitsFirst: (change: () => void) => void;
  readonly openWire: (auth: () => ScreenAuth, handlers: WireHandlers) => Wire;
  readonly fold: (batch: BatchState | null, lines: readonly string[]) => Folded;
  readonly clock: PageClock;
  readonly freshId: () => string;
  /** Runs again and again until the page ends. */
  readonly every: (ms: number, run: () => void) => void;
  readonly visible: () => boolean;
  readonly auth: () => ScreenAuth;
  /** Who acts on this page, to be said with each intent. */
  readonly person?: () => { readonly person?: string };
}

export interface Live {
  /** Judges the age of what is shown now: on a timer, and at once on waking, coming online, being shown again. */
  check(): void;
  intend(want: IntentWant): Promise<IntentAnswer>;
  lease(want: LeaseWant, label: string): Promise<void>;
  /** This page leads the bench, so it takes control when nobody has it; `null`: it does not. */
  leadAs(label: string | null): void;
  /** Something lies over the weight, or no longer does: told at once, and with every heartbeat. Meanwhile nothing is accepted by itself. */
  cover(covered: boolean): void;
  scene(act: SceneAct): Promise<boolean>;
  /** The server's clock now, as well as this page knows, ms; `null` before anything was heard. */
  serverNow(): number | null;
  /** Exchanges the one-time code for a token; `null`: no answer. */
  pair(code: string): Promise<{ readonly token: string | null; readonly waitMs: number } | null>;
  dismiss(): void;
}

const CHECK_EVERY_MS = 200;
const ALIVE_EVERY_MS = 1_000;
/** An intent is void this long after it was made, whatever happened on the way. */
const INTENT_LIVES_MS = 3_000;
const ANSWER_WITHIN_MS = 5_000;

/** The page's side of the bench. Everything that arrives becomes one write to the store; everything that leaves is refused unless it can leave now. */
export const createLive = (deps: LiveDeps): Live => {
  const { store } = deps;
  const freshness = createFreshness(deps.clock);
  let leading: string | null = null;
  /** Free at first sight, ours, or left by a page that is gone: taken without asking. From a page that is there only ever by a person. */
  let mayTake = true;
  let noticed = 0;
  let catchingUp = false;
  let covered = false;

  const wire = deps.openWire(deps.auth, {
    open: () => undefined,
    shut: () => {
      freshness.reset();
      const { frame } = store.getState();
      store.setState({
        link: 'down',
        stale: true,
        frame: frame === null ? null : share(frame, blankFrame(frame)),
        forecast: null,
        sending: false,
      });
    },
    hello: (hello) => greet(hello),
    live: (frame) => show(frame),
    forecast(lane) {
      const { standing, forecast } = store.getState();
      if (lane.boot === standing?.boot && lane.at >= (forecast?.at ?? 0)) store.setState({ forecast: share(forecast, lane) });
    },
    beat: (beat) => {
      if (beat.boot !== store.getState().standing?.boot || !freshness.heard(beat.at)) return;
      if (store.getState().stale) store.setState({ stale: false });
    },
    record: (lane) => follow(lane),
    lease: (lease) => {
      store.setState({ lease: share(store.getState().lease, lease) });
      take(lease);
    },
  });

  const greet = (hello: Hello): void => {
    if (hello.protocol !== PROTOCOL_VERSION) return store.setState({ link: 'up', outdated: true });
    if (hello.boot !== store.getState().standing?.boot) freshness.reset();
    freshness.heard(hello.at);
    const folded = deps.fold(null, hello.batch.lines);
    store.setState({
      link: 'up',
      stale: false,
      standing: { boot: hello.boot, bench: hello.bench, realm: hello.realm, role: hello.role, screen: hello.screen },
      frame: hello.live,
      forecast: hello.forecast,
      lease: hello.lease,
      batch: folded.batch,
      unreadable: folded.unreadable,
      seq: hello.batch.seq,
    });
    take(hello.lease);
  };

  const take = ({ holder, mine, lostForMs }: LeaseView): void => {
    if (holder !== null) mayTake = mine || (mayTake && lostForMs !== null);
    else if (mayTake && leading !== null && store.getState().standing?.role === 'maker') void lease('take-free', leading);
  };

  const show = (frame: LiveFrame): void => {
    const { standing, frame: older } = store.getState();
    if (frame.boot !== standing?.boot || (older !== null && older.boot === frame.boot && frame.n < older.n)) return;
    if (freshness.heard(frame.at)) deps.digitsFirst(() => store.setState({ stale: false, frame: share(older, frame) }));
  };

  const follow = (lane: RecordLane): void => {
    const { batch, seq } = store.getState();
    if (lane.from < 0) return;
    const continues = lane.batch === (batch?.id ?? null) && lane.from === seq;
    if (lane.from !== 0 && !continues) return void catchUp();
    const folded = deps.fold(lane.from === 0 ? null : batch, lane.lines);
    store.setState({ batch: folded.batch, unreadable: folded.unreadable, seq: lane.seq });
  };

  const catchUp = async (): Promise<void> => {
    if (catchingUp) return;
    catchingUp = true;
    const { batch, seq } = store.getState();
    const lane = await wire.ask('resume', { batch: batch?.id ?? null, seq }, ANSWER_WITHIN_MS);
    catchingUp = false;
    // Without an answer the link is as good as gone; a new hello brings everything.
    if (lane === null || (lane.from !== 0 && lane.from !== store.getState().seq)) wire.reopen();
    else follow(lane);
  };

  const refuse = (code: Notice['code'], params: Notice['params'] = {}): void => {
    noticed += 1;
    store.setState({ notice: { id: noticed, code, params } });
  };
  const refused = (code: RefusalCode): IntentAnswer => {
    refuse(code);
    return { ok: false, refusal: { code, params: {} } };
  };

  const intend = async (want: IntentWant): Promise<IntentAnswer> => {
    const { link, stale, standing, lease, batch, frame, unreadable } = store.getState();
    const expires = freshness.serverNow();
    if (link !== 'up' || stale || standing === null || expires === null || !wire.connected()) return refused('offline');
    const silence = want.kind === 'press' && want.key === 'silence';
    if (!silence && lease?.mine !== true) return refused('not-in-control');
    if (unreadable !== null) return refused('wrong-state');
    const fresh = want.kind === 'start' || want.kind === 'take-up';
    const intent: BenchIntent = {
      id: deps.freshId(),
      batch: fresh ? null : (batch?.id ?? null),
      expectedVersion: fresh ? null : (batch?.version ?? null),
      seen: { boot: standing.boot, episode: frame?.cue.episode ?? 0 },
      expires: expires + INTENT_LIVES_MS,
      ...deps.person?.(),
      want,
    };
    store.setState({ sending: true, notice: null });
    const answer = await wire.ask('intent', intent, ANSWER_WITHIN_MS);
    store.setState({ sending: false });
    if (answer === null) {
      refuse('no-answer');
      return { ok: false, refusal: { code: 'offline', params: {} } };
    }
    // Two screens, or a finger and a pedal, meant the same: that is no error to be told of.
    if (!answer.ok && answer.refusal.code !== 'already-done') refuse(answer.refusal.code, answer.refusal.params);
    return answer;
  };

  const lease = async (want: LeaseWant, label: string): Promise<void> => {
    if (want === 'release') mayTake = false;
    const view = await wire.ask('lease', { want, label }, ANSWER_WITHIN_MS);
    if (view === null) return refuse('offline');
    mayTake = view.mine;
    store.setState({ lease: share(store.getState().lease, view) });
  };

  const check = (): void => {
    const { stale, frame } = store.getState();
    if (stale || freshness.fresh()) return;
    store.setState({ stale: true, frame: frame === null ? null : share(frame, blankFrame(frame)) });
  };

  deps.every(CHECK_EVERY_MS, check);
  const alive = (): void => {
    const { standing, link } = store.getState();
    if (link === 'up' && standing !== null) wire.alive({ visible: deps.visible(), covered, boot: standing.boot, ...deps.person?.() });
  };
  deps.every(ALIVE_EVERY_MS, alive);

  return {
    check,
    intend,
    lease,
    leadAs(label) {
      leading = label;
      const { link, lease: held, standing } = store.getState();
      if (label !== null && link === 'up' && standing?.role === 'maker' && held?.holder === null) void lease('take-free', label);
    },
    cover(now) {
      covered = now;
      alive();
    },
    async scene(act) {
      const answer = await wire.ask('scene', act, ANSWER_WITHIN_MS);
      if (answer === null) refuse('offline');
      else if (!answer.ok) refuse('scene-refused', { why: answer.why ?? '' });
      return answer?.ok ?? false;
    },
    async pair(code) {
      const answer = await wire.ask('pair', { code }, ANSWER_WITHIN_MS);
      return answer === null ? null : { token: answer.ok ? (answer.token ?? null) : null, waitMs: answer.waitMs };
    },
    serverNow: () => freshness.serverNow(),
    dismiss: () => store.setState({ notice: null }),
  };
};
