/** One field failure: what goes wrong, the test named after it, the guard against it, and how to take the guard away. */
export interface Guarded {
  readonly code: string;
  readonly breaks: string;
  /** Title of a test, or of the `describe` around it, as it stands in the file; up to the first placeholder it is what is run. */
  readonly test: { readonly file: string; readonly title: string };
  readonly guard: {
    readonly file: string;
    /** Pieces that each stand exactly once in the file, and what takes their place. */
    readonly without: readonly (readonly [piece: string, instead: string])[];
  };
  /** For a run without the guard. */
  readonly env?: Readonly<Record<string, string>>;
}

/** Failures of serial instruments on a live page, met in the field by others; the table in DEVELOPERS.md is made of these. */
export const GUARDED: readonly Guarded[] = [
  {
    code: 'A1',
    breaks: 'The last reading stays on the screen after the instrument went silent, and no alarm comes because nothing new arrives.',
    test: {
      file: 'tests/server/runtime/freeze.test.ts',
      title: 'A1: a scale that falls silent on an open port loses its number on every screen',
    },
    guard: {
      file: 'lib/measure/readings/age.ts',
      without: [["  if (silence > lostAfter(age.period)) return 'lost';\n", '']],
    },
  },
  {
    code: 'A2',
    breaks: 'Half a frame from before an unplug and half from after it make one weight that nobody sent.',
    test: { file: 'tests/unit/link/field-failures.test.ts', title: 'A2: a partial frame never survives a close' },
    guard: {
      file: 'lib/measure/link/link.ts',
      without: [
        [
          'const line = createLine({ config, expected, fruitless, now: clock.now(), ring, sink: lineSink });',
          'const kept = config as { line?: Line };\n    const line = (kept.line ??= createLine({ config, expected, fruitless, now: clock.now(), ring, sink: lineSink }));',
        ],
        ['reading: (reading: Reading) => read(mine, reading)', 'reading: (reading: Reading) => read(state as Try, reading)'],
      ],
    },
  },
  {
    code: 'A3',
    breaks: 'After a standstill everything that piled up arrives at once and counts as weighed now.',
    test: {
      file: 'tests/server/runtime/freeze.test.ts',
      title: 'A3: shows nothing of what piled up: after five seconds of stall no weight on a screen is older than half a second',
    },
    guard: {
      file: 'lib/measure/readings/burst.ts',
      without: [['const stalled = watch.ranAt !== null && now - watch.ranAt > STALL_MS;', 'const stalled = false as boolean;']],
    },
  },
  {
    code: 'A4',
    breaks: 'A page goes on showing values over a connection that looks open and is dead.',
    test: { file: 'tests/unit/app/live.test.ts', title: 'A4: what the page shows without the server' },
    guard: {
      file: 'app/_live/live.ts',
      without: [['if (stale || freshness.fresh()) return;', 'if (stale || freshness.serverNow() !== null) return;']],
    },
  },
  {
    code: 'A5',
    breaks: 'Taps made while the server was away are delivered and carried out when it is back.',
    test: {
      file: 'tests/server/runtime/kill.test.ts',
      title: 'A5: taps made while it was dead are refused when it is back, and nothing of them is in the record',
    },
    guard: {
      file: 'lib/bench/pipeline/intents.ts',
      without: [["  if (intent.seen.boot !== boot || now > intent.expires) return refusal('expired');\n", '']],
    },
  },
  {
    code: 'A6',
    breaks: 'Two screens both believe that they lead the bench.',
    test: {
      file: 'tests/server/live/screens.test.ts',
      title: 'A6: of two that race for one step one is heard, and a takeover is explicit and told to the other',
    },
    guard: {
      file: 'lib/bench/pipeline/intents.ts',
      without: [["  if (!holdsLease(core.lease(), screen, now)) return refusal('not-in-control');\n", '']],
    },
  },
  {
    code: 'A7',
    breaks: 'What a sensor says when it has failed (85, −127, 0) is taken for a temperature.',
    test: { file: 'tests/unit/readings/suspect.test.ts', title: 'A7: a sensor fault is a word, not a temperature' },
    guard: {
      file: 'lib/measure/readings/suspect.ts',
      without: [
        ['const fault = sentinelFault(memory, here, driver) ?? rangeFault(value, driver);', 'const fault = rangeFault(value, driver);'],
      ],
    },
  },
  {
    code: 'A8',
    breaks: 'A frame with an unknown unit, or a status that says there is no weight, is taken for grams.',
    test: { file: 'tests/unit/wire/faults.test.ts', title: 'A8: what a frame states is believed whole or not at all' },
    guard: {
      file: 'lib/measure/wire/tokens.ts',
      without: [['found.unit = unitOf(bytes, first, last);', "found.unit = unitOf(bytes, first, last) ?? 'g';"]],
    },
  },
  {
    code: 'A10',
    breaks: 'The browser keeps the sound back, and the page believes that it rang.',
    test: { file: 'tests/browser/sound.test.ts', title: 'A10: whether an alarm would be heard' },
    guard: {
      file: 'app/_live/sound.ts',
      without: [["context === 'running' ? 'armed' : 'blocked'", "'armed'"]],
    },
  },
  {
    code: 'A11',
    breaks: 'A finger already on its way meets a button that has just come under it.',
    test: { file: 'tests/unit/app/hands.test.ts', title: 'A11: a finger on its way when the screen changes' },
    guard: { file: 'app/_live/guard.ts', without: [['open: () => now() >= until,', 'open: () => until < Infinity,']] },
  },
  {
    code: 'A12',
    breaks: 'Over plain http the browser withholds what localhost has, and the tablet goes dark or buttons do nothing.',
    test: { file: 'tests/browser/hands.test.ts', title: 'A12: what a plain-http page is not given' },
    guard: {
      file: 'app/_live/awake.ts',
      without: [
        [
          "if (!('wakeLock' in navigator)) return set(window.isSecureContext ? 'unsupported' : 'plain-http');",
          "if (!('wakeLock' in navigator)) return undefined;",
        ],
      ],
    },
  },
  {
    code: 'A13',
    breaks: 'A page of somebody else, or a name pointed at this machine, speaks to the bench.',
    test: { file: 'tests/server/live/screens.test.ts', title: 'A13: Host and Origin, on every way in' },
    guard: {
      file: 'server/http/gate.ts',
      without: [['    check({ host, origin }) {\n', '    check({ host, origin }) {\n      if (origin !== undefined) return null;\n']],
    },
  },
  {
    code: 'B1',
    breaks: 'The readings stop while the port still counts as open.',
    test: { file: 'tests/server/ports/field-failures.test.ts', title: 'B1: an open line that falls silent is closed and opened anew' },
    guard: {
      file: 'lib/measure/link/line.ts',
      without: [['const reopen = quiet >= reopenAfter(fruitless);', 'const reopen = quiet < 0;']],
    },
  },
  {
    code: 'B2',
    breaks: 'Ports change places, and the thermometer is read as the scale.',
    test: {
      file: 'tests/unit/link/field-failures.test.ts',
      title: 'B2: ports change places',
    },
    guard: {
      file: 'lib/measure/link/opening.ts',
      without: [['if (!belongs(config, expected, heard)) return;', 'if (!belongs(config, expected, heard) && heard === null) return;']],
    },
  },
  {
    code: 'B3',
    breaks: 'A motor or an induction hob resets the USB line, and the instrument stays away.',
    test: {
      file: 'tests/server/ports/field-failures.test.ts',
      title: 'B3: ${UNPLUGS} unplugs: no wrong value, back within three seconds, nothing left open',
    },
    guard: {
      file: 'lib/measure/link/link.ts',
      without: [["    fail('lost', '');\n    retry();\n", "    fail('lost', '');\n"]],
    },
    env: { UNPLUGS: '1' },
  },
  {
    code: 'B4',
    breaks: 'A port in use, one without the right to it and one that is not there all say the same.',
    test: {
      file: 'tests/server/ports/refused.test.ts',
      title: 'B4: busy while another process holds the port, and live by itself once that lets go',
    },
    guard: {
      file: 'hardware/ports/port-failure.ts',
      without: [["  [/cannot lock port|device or resource busy|EBUSY/i, 'busy'],\n", '']],
    },
  },
  {
    code: 'B5',
    breaks: 'Opening the port restarts the instrument, and its greeting and power-on values count as readings.',
    test: {
      file: 'tests/server/ports/field-failures.test.ts',
      title: 'B5: a greeting and power-on values behind the opening are no readings',
    },
    guard: {
      file: 'lib/measure/link/opening.ts',
      without: [['if (proved && calm.reached(arrived)) sink.reading(reading);', 'if (proved) sink.reading(reading);']],
    },
  },
  {
    code: 'B6',
    breaks: 'Noise without a line end is gathered without limit until everything stands still.',
    test: { file: 'tests/unit/wire/noise.test.ts', title: 'B6: noise never stalls and never becomes a reading' },
    guard: {
      file: 'lib/measure/wire/line-framer.ts',
      without: [["    if (end - block.start > FRAME_CAP) this.giveUp('too-long', block.start + FRAME_CAP);\n", '']],
    },
  },
  {
    code: 'B7',
    breaks: 'A weight is acknowledged and lost in a power cut, because the disk was never waited for.',
    test: {
      file: 'tests/server/store/sync.test.ts',
      title: 'B7: every commit is synced after it was asked for and before it is acknowledged',
    },
    guard: {
      file: 'server/store/file.ts',
      without: [
        ["db.pragma('synchronous = FULL');", "db.pragma('synchronous = NORMAL');"],
        ['const FULL = 2;', 'const FULL = 1;'],
      ],
    },
  },
  {
    code: 'B8',
    breaks: 'A power cut changes bytes of the record, and nobody notices until the numbers are used.',
    test: { file: 'tests/server/store/flipped.test.ts', title: 'B8: flipped bytes in a record that was %s' },
    guard: {
      file: 'server/store/open.ts',
      without: [['  const findings = findingsOf(seen.inspection);\n', '  const findings = findingsOf(seen.inspection).slice(0, 0);\n']],
    },
  },
  {
    code: 'B9',
    breaks: 'After a crash the program guesses what is in the vessel, or forgets the batch.',
    test: {
      file: 'tests/server/runtime/kill.test.ts',
      title: 'B9: comes back at the same batch, and goes on only when a person has said what is in the vessel',
    },
    guard: {
      file: 'lib/work/batch/decide/before.ts',
      without: [["  if (before.resumed && command.boot !== state.resumedInBoot) return refusal('needs-resume');\n", '']],
    },
  },
  {
    code: 'B10',
    breaks: 'The wall clock is set, and every age and timer is wrong at once.',
    test: { file: 'tests/unit/bench/clock-watch.test.ts', title: 'B10: the clocks are compared with one another' },
    guard: {
      file: 'lib/bench/clock-watch.ts',
      without: [['return Math.abs(stepped) >= STEP_MS ?', 'return Math.abs(stepped) < 0 ?']],
    },
  },
  {
    code: 'B11',
    breaks: 'A screen that comes back has missed lines of the record and does not know it.',
    test: {
      file: 'tests/server/runtime/kill.test.ts',
      title: 'B11: every screen has what the record has, after a blip and after a kill',
    },
    guard: {
      file: 'server/live/screen.ts',
      without: [
        ['      batch,\n      live: bench.frame(),', '      batch: { ...batch, from: batch.seq, lines: [] },\n      live: bench.frame(),'],
      ],
    },
  },
  {
    code: 'B12',
    breaks: 'One slow screen fills the memory of the server or delays all the others.',
    test: { file: 'tests/server/live/slow-screen.test.ts', title: 'B12: a screen that stops reading' },
    guard: {
      file: 'server/live/outlet.ts',
      without: [['    if (deps.buffered() > LIVE_CAP_BYTES) return later(FRAME_GAP_MS);\n', '']],
    },
  },
  {
    code: 'B13',
    breaks: 'One malformed message ends the server.',
    test: { file: 'tests/server/live/fuzz.test.ts', title: 'B13: no message kills the server' },
    guard: {
      file: 'server/live/screen.ts',
      without: [
        ["if (!read.success) return otherwise('malformed');\n", ''],
        ['return handle(read.data);', 'return handle(said as z.core.output<Schema>);'],
      ],
    },
  },
  {
    code: 'B17',
    breaks: 'A page left open grows through the night until its browser ends it.',
    test: { file: 'tests/unit/app/view.test.ts', title: 'B17: holds a fixed number of temperatures, holes included' },
    guard: {
      file: 'app/_live/ring.ts',
      without: [['if (used === size) for (const column of [at, lye, oils]) column.copyWithin(0, 1);\n      else used += 1;', 'used += 1;']],
    },
  },
  {
    code: 'B18',
    breaks: 'A part of the page draws without end, or breaks, and takes the alarms with it.',
    test: { file: 'tests/unit/app/boundary.test.tsx', title: 'B18: a part that breaks leaves the alarms on the screen' },
    guard: {
      file: 'app/_ui/boundary.tsx',
      without: [['return this.state.broken ? this.props.fallback : this.props.children;', 'return this.props.children;']],
    },
  },
  {
    code: 'B20',
    breaks: 'Frames are cut where the system happened to hand over bytes.',
    test: { file: 'tests/property/wire.test.ts', title: 'B20: chunks of any size give identical readings and faults' },
    guard: {
      file: 'lib/measure/wire/line-framer.ts',
      without: [['  push(chunk: Uint8Array): void {\n', '  push(chunk: Uint8Array): void {\n    this.block.start = this.block.end;\n']],
    },
  },
  {
    code: 'B21',
    breaks: 'After a restart every screen comes back in the same moment, and each has the whole batch read for itself.',
    test: {
      file: 'tests/unit/bench/herd.test.ts',
      title: 'B21: fifty that come back at once cost one reading of the record, and the next line one more',
    },
    guard: {
      file: 'lib/bench/pipeline/index.ts',
      without: [['      if (wholeLane?.batch === id && wholeLane.seq === seq) return wholeLane.read;\n', '']],
    },
  },
  {
    code: 'C2',
    breaks: 'The program is asked to end and leaves ports open, or ends in the middle of a write.',
    test: { file: 'tests/server/runtime/shutdown.test.ts', title: 'C2: a server that is asked to end in the middle of a step' },
    guard: {
      file: 'server/main.ts',
      without: [["      log.info({ signal }, 'stopping');\n      end(0);\n", "      log.info({ signal }, 'stopping');\n"]],
    },
  },
];
