import type { BackupsPage } from '#lib/protocol/export';
import { IDLE_CUE } from '#lib/bench/conductor/blank';
import type { InstrumentConfig } from '#lib/measure/instrument';
import type { BatchListRow, Health, HttpProblem, InstrumentsPage, PortRow } from '#lib/protocol/http';
import { as } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import type { Realm } from '#lib/work/batch/index';
import { FINE, MAIN } from '#tests/support/batch';
import { probe, scale, small } from './fixtures';
import type { Scene } from './fixtures';
import { BATCHES, pageOf, rowsOf } from './paper-batches';
import type { BatchName } from './paper-batches';

/** What a page on paper gets to an address: a body, with its status if it is not 200; `never`: no answer comes. */
type Answer = { readonly body: unknown; readonly status?: number } | { readonly drawing: string } | 'never';

/** One state of the workshop as the pages on paper would find it. */
export interface PaperScene {
  readonly bench: Scene;
  readonly answer: (path: string, asked: URLSearchParams) => Answer | null;
}

const BROKEN: HttpProblem = {
  error: 'Something went wrong on the bench machine.',
  kept: 'What was committed before is kept.',
  todo: 'Try again; if it stays, look at its log.',
};
const READ_ONLY = 'Line 3 of the batch journal was changed from outside. Everything up to line 2 reads right.';

const serial = { baudRate: 9_600, frame: '8N1' } as const;
const CONFIGS: readonly InstrumentConfig[] = [
  {
    kind: 'scale',
    id: MAIN,
    role: 'main',
    name: 'big scale',
    path: '/dev/serial/by-id/usb-serial-A50285BI-if00-port0',
    shape: null,
    serial,
    capacity: grams(6_000),
    division: mg(100),
  },
  {
    kind: 'scale',
    id: FINE,
    role: 'fine',
    name: 'small scale',
    path: '/dev/serial/by-id/usb-serial-FTB6SPL3-if00-port0',
    shape: null,
    serial,
    capacity: grams(300),
    division: mg(10),
  },
  ...(['lye', 'oils', 'room'] as const).map((use): InstrumentConfig => ({
    kind: 'probe',
    id: as(`probe-${use}`),
    name: `${use} probe`,
    path: '/dev/serial/by-id/usb-probe-board-0042-if00',
    use,
    shape: null,
    serial,
  })),
];
const PORTS: readonly PortRow[] = [
  { stable: '/dev/serial/by-id/usb-serial-A50285BI-if00-port0', device: '/dev/ttyUSB0', maker: null, ambiguous: false },
  { stable: '/dev/serial/by-path/pci-0000:00:14.0-usb-0:2:1.0-port0', device: '/dev/ttyUSB1', maker: null, ambiguous: true },
];

const instruments = (realm: Realm, bound: readonly InstrumentConfig[], lost: readonly string[] = []): InstrumentsPage => ({
  instruments: bound.map((config) => ({
    config: realm === 'practice' ? { ...config, path: `practice:${config.id}` } : config,
    from: realm === 'practice' ? ('practice' as const) : ('setup' as const),
    status: {
      instrument: config.id,
      phase: lost.includes(config.id) ? ('waiting' as const) : ('live' as const),
      failure: lost.includes(config.id) ? ('missing' as const) : null,
      detail: '',
      shape: config.kind === 'scale' ? ('letter-reply' as const) : ('probe-line' as const),
      nature: realm === 'practice' ? ('simulated' as const) : ('serial' as const),
      lossesLastHour: lost.includes(config.id) ? 3 : 0,
      retryInMs: lost.includes(config.id) ? 4_000 : null,
      faults: lost.includes(config.id) ? { 'first-partial': 1, grammar: 12 } : { 'first-partial': 1 },
      readings: 48_213,
    },
  })),
  ports: realm === 'practice' ? [] : PORTS,
  realm,
  leavePractice: realm === 'practice',
});

/** Stands in for the tablet's code: a drawing that no camera reads. */
const CODE =
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path fill="#fff" d="M0 0h9v9H0z"/><path d="M1 1h3v3H1zM5 1h3v3H5zM1 5h3v3H1zM5 5h1v1H5zM7 6h1v2H7zM5 7h1v1H5z"/></svg>';

const FRAMES = {
  frames: [
    { hex: '53 20 53 20 20 20 20 34 31 32 2e 33 30 20 67 0d 0a', text: 'S S    412.30 g␍␊', ageMs: 84, took: '412.30 g stable' },
    { hex: '53 20 44 20 20 20 20 34 31 32 2e 32 30 20 67 0d 0a', text: 'S D    412.20 g␍␊', ageMs: 184, took: '412.20 g moving' },
    { hex: '53 20 44 20 20 20 20 34 31 31 2e 38', text: 'S D    411.8', ageMs: 284, took: 'idle-cut' },
  ],
};

interface Workshop {
  readonly realm: Realm;
  readonly batch?: BatchName;
  readonly bench?: Partial<Scene['frame']>;
  readonly role?: Scene['role'];
  readonly rows?: readonly BatchListRow[];
  readonly page?: InstrumentsPage;
  readonly readOnly?: string;
  /** Paths whose answer is another. */
  readonly instead?: (path: string) => Answer | null;
}

const BACKUPS: BackupsPage = {
  folder: '/home/maker/.local/share/potwatch/backups',
  problem: null,
  backups: [{ name: 'practice-2026-04-14T06-00-00Z.sqlite', realm: 'practice', wall: Date.UTC(2026, 3, 14, 6), bytes: 4_526_080 }],
};

const workshop = (what: Workshop): PaperScene => {
  const { realm, batch, bench, role = 'maker', rows = [], page = instruments(realm, CONFIGS), readOnly = null, instead } = what;
  const entries = batch === undefined ? [] : BATCHES[batch]();
  const id = entries[0]?.batch;
  const health: Omit<Health, 'boot' | 'build'> = {
    ok: readOnly === null,
    realm,
    bench: 'bench 1',
    upMs: 60_000,
    journal: { ok: readOnly === null, seq: 1_214, readOnly, damage: [] },
    instruments: [],
  };
  const answers: Readonly<Record<string, (asked: URLSearchParams) => Answer>> = {
    '/api/health': () => ({ body: { boot: 'boot-1', build: 'stage', ...health }, status: readOnly === null ? 200 : 503 }),
    '/api/batches': (asked) => {
      const of = asked.get('status');
      return { body: { batches: rows.filter(({ status }) => of === null || status === of), next: null } };
    },
    '/api/batches/formulas': () => ({ body: { formulas: [...new Set(rows.map(({ name }) => name))] } }),
    '/api/export/backups': () => ({ body: BACKUPS }),
    '/api/instruments': () => ({ body: page }),
    '/api/qr': () => ({ drawing: CODE }),
  };
  const batchAt = (path: string): Answer | null => {
    const asked = /^\/api\/batches\/(.+)$/.exec(path)?.[1];
    if (asked === undefined) return path.endsWith('/raw') ? { body: FRAMES } : null;
    const name = asked === id ? batch : asked;
    return name !== undefined && Object.hasOwn(BATCHES, name) ? { body: pageOf(name as BatchName) } : null;
  };
  return {
    bench: {
      realm,
      role,
      lease: { holder: null, mine: false, label: null, lostForMs: null },
      entries: entries.map((entry) => ({ ...entry, realm })),
      frame: {
        scales: [scale(), small()],
        probes: [probe('lye', batch === 'weighed' ? 78.4 : null), probe('oils', 45.3), probe('room', 20.4)],
        cue: IDLE_CUE,
        alarms: [],
        ...bench,
      },
    },
    answer: (path, asked) => instead?.(path) ?? answers[path]?.(asked) ?? batchAt(path),
  };
};

const LIST = () => rowsOf('midway', 'eventful', 'plain', 'parked', 'stopped', 'plain', 'plain');
const waits =
  (prefix: string) =>
  (path: string): Answer | null =>
    path.startsWith(prefix) ? 'never' : null;
const broken =
  (prefix: string) =>
  (path: string): Answer | null =>
    path.startsWith(prefix) ? { body: BROKEN, status: 500 } : null;
const under = (batch: BatchName, more: Partial<Workshop> = {}): PaperScene => workshop({ realm: 'practice', batch, rows: LIST(), ...more });
const LOST = {
  scales: [scale({ gross: null, freshness: 'lost', age: 9_000, link: 'waiting', last: { gross: 412_600, age: 9_000 } }), small()],
};

/** Everything the pages on paper can meet. */
export const PAPER = {
  empty: () => workshop({ realm: 'practice' }),
  'empty-real': () => workshop({ realm: 'real', page: instruments('real', []), bench: { scales: [], probes: [] } }),
  weighing: () => under('midway', { bench: LOST }),
  begun: () => under('begun'),
  weighed: () => under('weighed'),
  parked: () => under('parked'),
  resume: () => under('midway', { bench: { cue: { ...IDLE_CUE, phase: 'resume' } } }),
  idle: () => workshop({ realm: 'real', rows: LIST().map((row) => ({ ...row, realm: 'real' as const })) }),
  watching: () => under('midway', { role: 'watcher' }),
  'read-only': () => workshop({ realm: 'practice', rows: LIST(), readOnly: READ_ONLY }),
  asking: () => under('midway', { instead: waits('/api/') }),
  broken: () => under('midway', { instead: broken('/api/') }),
  'one-lost': () => workshop({ realm: 'real', page: instruments('real', CONFIGS, [MAIN]), bench: LOST, rows: LIST() }),
} satisfies Record<string, () => PaperScene>;
export type PaperName = keyof typeof PAPER;
