import { access, constants } from 'node:fs/promises';
import { delimiter, join } from 'node:path';
import { fine, note, stop, type Finding } from './finding';

/** Past its end of life (Node's own release schedule): runs, but gets no security updates. */
const ENDED = 20;

/** `floor`: the oldest version that will do, as in `engines` of package.json: `>=20.20`. */
export function checkNode(version: string, floor: string): Finding[] {
  const [have = 0, haveMinor = 0] = numbersOf(version);
  const [need = 0, needMinor = 0] = numbersOf(floor);
  const enough = have > need || (have === need && haveMinor >= needMinor);
  if (!enough)
    return [stop(`Node ${version} is too old; this needs ${floor.replace('>=', '')} or newer.`, 'Install Node 22 or 24 from nodejs.org.')];
  if (have <= ENDED)
    return [note(`Node ${version} will do, but gets no security updates any more.`, 'Change to Node 22 or 24 when it suits.')];
  return [fine(`Node ${version}.`)];
}

const numbersOf = (text: string): number[] => (text.match(/\d+/g) ?? []).map(Number);

/** A part with native code: how it is loaded, and whether installing it may have to compile it. */
export interface NativePart {
  readonly name: string;
  readonly load: () => Promise<unknown>;
}

/** Loads each native part; when one will not load, names what is missing to build it. */
export async function checkNativeParts(parts: readonly NativePart[], path = process.env['PATH'] ?? ''): Promise<Finding[]> {
  const missing = await missingTools(path);
  return Promise.all(
    parts.map(async ({ name, load }) => {
      try {
        await load();
        return fine(`${name} works on this computer.`);
      } catch (error) {
        const why = (error instanceof Error ? error.message : String(error)).split('\n')[0] ?? '';
        const tools =
          missing.length === 0
            ? ''
            : `It has to be compiled here, and ${missing.join(', ')} cannot be found: install the compiler first ("sudo apt install build-essential python3" on Debian). `;
        return stop(`${name} cannot be loaded: ${why}`, `${tools}Then run "npm rebuild ${name}".`);
      }
    }),
  );
}

/** What compiling a native part takes and is not on the search path: a C++ compiler, make, Python. */
export async function missingTools(path: string): Promise<string[]> {
  const wanted: readonly (readonly [string, readonly string[]])[] = [
    ['a C++ compiler (g++ or clang++)', ['g++', 'clang++', 'c++']],
    ['make', ['make']],
    ['python3', ['python3']],
  ];
  const found = await Promise.all(
    wanted.map(async ([, names]) => (await Promise.all(names.map((name) => onPath(name, path)))).some(Boolean)),
  );
  return wanted.filter((_, n) => found[n] === false).map(([name]) => name);
}

/** Programs only trying without hardware, or the tests, use. */
export async function checkTestTools(path = process.env['PATH'] ?? ''): Promise<Finding[]> {
  const tools: readonly (readonly [string, readonly string[], string])[] = [
    ['socat', ['socat'], 'a simulated instrument on a serial line, and the tests'],
    ['chromium', ['chromium', 'chromium-browser', 'google-chrome'], 'the tests only'],
  ];
  return Promise.all(
    tools.map(async ([name, names, use]) =>
      (await Promise.all(names.map((candidate) => onPath(candidate, path)))).some(Boolean)
        ? fine(`${name} is here, for ${use}.`)
        : note(`${name} is not here; it is for ${use}.`, `Nothing to do for weighing; otherwise "sudo apt install ${name}".`),
    ),
  );
}

const onPath = async (name: string, path: string): Promise<boolean> => {
  for (const folder of path.split(delimiter).filter((part) => part !== '')) {
    if (
      await access(join(folder, name), constants.X_OK).then(
        () => true,
        () => false,
      )
    )
      return true;
  }
  return false;
};
