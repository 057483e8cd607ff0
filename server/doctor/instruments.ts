import { access, constants, realpath, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { refuseAmbiguous } from '#hardware/ports/bind';
import type { InstrumentConfig } from '#lib/measure/instrument';
import { PortError } from '#lib/measure/link/port';
import { FAILURE_ADVICE } from '#lib/measure/link/words';
import { fine, note, stop, type Finding } from './finding';
import { leadsToPty } from '../bench/realm';

/** Where the record of the real workshop lies in a data folder. */
const recordIn = (dir: string): string => join(dir, 'real.sqlite');

/** Every instrument that Setup stored: whether its name leads to one port now, and whether this user may open it. Opens none. */
export async function checkInstruments(dir: string, root = '/'): Promise<Finding[]> {
  const there = await stat(recordIn(dir)).then(
    () => true,
    () => false,
  );
  if (!there) return [];
  // Loaded late: without the compiled database there is nothing to look with.
  const { peekSettings } = await import('../store/peek');
  // What is wrong with the record itself is said where records are looked at.
  const stored = readable(() => peekSettings(recordIn(dir)));
  if (stored === null) return [];
  const { instruments, practiceLeft } = stored;
  if (instruments.length === 0) return [practiceLeft ? NONE : PRACTICE];
  const each = await Promise.all(instruments.map((config) => checkInstrument(config, root)));
  return practiceLeft ? each : [...each.map(asNote), WAITING];
}

const NONE = note('Setup has stored no instrument.', 'Bind one in Setup, or name it with --scale. Until then weights are typed by hand.');
const PRACTICE = fine('Setup has stored no instrument: started without --scale or --probe, the practice bench runs.');
const WAITING = note('The practice bench runs; these instruments wait.', 'Leave practice in Setup when the real bench is to begin.');

/** As long as the practice bench runs, nothing that is wrong with the others stops anybody. */
const asNote = ({ said, todo }: Finding): Finding => (todo === undefined ? fine(said) : note(said, todo));

/** One stored instrument: whether its name leads to one port now, and whether this user may open it. */
export async function checkInstrument(config: InstrumentConfig, root: string): Promise<Finding> {
  const { path } = config;
  const shown = `${config.name} (${path})`;
  // Without a probe one weighs on, with temperatures typed; without its scale a bench is none.
  const wrong = config.kind === 'scale' ? stop : note;
  const target = await realpath(path).catch(() => null);
  if (target === null) return wrong(`${shown}: ${FAILURE_ADVICE.missing.said}`, FAILURE_ADVICE.missing.todo);
  try {
    await refuseAmbiguous(path, root);
  } catch (error) {
    if (!(error instanceof PortError)) throw error;
    return wrong(`${shown}: ${FAILURE_ADVICE.ambiguous.said}`, `${FAILURE_ADVICE.ambiguous.todo} (${error.message})`);
  }
  const open = await access(target, constants.R_OK | constants.W_OK).then(
    () => true,
    () => false,
  );
  if (!open) return wrong(`${shown}: ${FAILURE_ADVICE.denied.said}`, FAILURE_ADVICE.denied.todo);
  if (leadsToPty(path) === true)
    return note(`${shown} is a pseudo-terminal: what is weighed there is a test.`, 'Nothing to do for trying; bind a real port in Setup.');
  return fine(`${shown} is there and may be opened.`);
}

const readable = <T>(read: () => T): T | null => {
  try {
    return read();
  } catch {
    return null;
  }
};
