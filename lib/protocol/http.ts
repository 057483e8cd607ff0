import type { InstrumentConfig, LinkStatus } from '#lib/measure/instrument';
import type { MouldOffer } from '#lib/work/formula/mould-offers';
import type { LotFault } from '#lib/work/lots/fitness';
import type { BatchReview, BatchSummary, Plan, Realm } from '#lib/work/batch/index';

/** GET /api/health */
export interface Health {
  readonly ok: boolean;
  readonly boot: string;
  readonly build: string;
  readonly realm: Realm;
  readonly bench: string;
  readonly upMs: number;
  /** `damage`: where the record is damaged, in plain sentences; the first twenty places. */
  readonly journal: {
    readonly ok: boolean;
    readonly seq: number;
    readonly readOnly: string | null;
    readonly damage: readonly string[];
  };
  readonly instruments: readonly { readonly id: string; readonly phase: string }[];
}

/** GET /api/batches?before=&limit=&status= */
export type BatchListRow = BatchSummary;
export interface BatchList {
  readonly batches: readonly BatchListRow[];
  readonly next: string | null;
}

/** GET /api/batches/:id/moulds: what a batch without any could be poured into; none where it has some, or its batter is made. */
export interface MouldsFor {
  /** cm³ at pouring; `null` where it is not worked out. */
  readonly batterMl: number | null;
  readonly moulds: readonly MouldOffer[];
}

/** GET /api/batches/:id: the review, and where its lines stand in the journal. */
export interface BatchPage extends BatchReview {
  /** Names of those its entries know by id; `null` once erased. Who is not here has no name. */
  readonly people: Readonly<Record<string, string | null>>;
  readonly record: RecordFoot;
}
/** The link of a batch's newest line stays what it is whatever is entered after it: printed, it can be held against the journal later. */
export interface RecordFoot {
  /** Lines of this batch. */
  readonly entries: number;
  /** Sequence number of its newest line in the journal. */
  readonly seq: number;
  /** SHA-256 link of that line, hex. */
  readonly link: string;
}

/** GET /api/instruments: what Setup shows. */
export interface InstrumentsPage {
  readonly instruments: readonly {
    readonly config: InstrumentConfig;
    readonly status: LinkStatus;
    readonly from: 'command line' | 'setup' | 'practice';
  }[];
  readonly ports: readonly PortRow[];
  readonly realm: Realm;
  readonly leavePractice: boolean;
  /** Bound in Setup and waiting while practice runs; left out otherwise. */
  readonly waiting?: readonly InstrumentConfig[];
}
/** GET /api/instruments/:id/raw: the newest raw frames, for the bytes view. */
export interface RawFrames {
  readonly frames: readonly { readonly hex: string; readonly text: string; readonly ageMs: number; readonly took: string }[];
}
export interface PortRow {
  /** The name to bind by: by-id, else by-path, else the device itself. */
  readonly stable: string;
  readonly device: string;
  readonly maker: string | null;
  /** Another device claims the same by-id name: `stable` is then the by-path name, which stays with the socket. */
  readonly ambiguous: boolean;
}

/** GET /api/plans: what the bench may start, each with the lots in the stores by line. */
export interface PlanList {
  readonly plans: readonly {
    readonly id: string;
    readonly plan: Plan;
    /** First expired, first out. `fault`: why it should not be used. */
    readonly lots: Readonly<
      Record<string, readonly { readonly id: string; readonly mark: string; readonly bestBefore?: string; readonly fault?: LotFault }[]>
    >;
  }[];
}

/** Every failure over HTTP: what happened, what was kept, what to do. */
export interface HttpProblem {
  readonly error: string;
  readonly kept: string;
  readonly todo: string;
}
