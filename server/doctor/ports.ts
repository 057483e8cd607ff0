import { access, constants, readdir, readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { scanPorts, twins, type ScannedPort } from '#hardware/ports/scan-ports';
import { FAILURE_ADVICE } from '#lib/measure/link/words';
import { fine, note, stop, type Finding } from './finding';

export interface PortsParts {
  /** Where `dev`, `sys`, `proc` and `etc` lie. */
  readonly root: string;
  readonly user: string;
  /** Groups of this process: those of the login, not those given since. */
  readonly groups: readonly number[];
}

/** Services that open every new serial port for a while, from memory: one asks for modems, the other for braille displays. */
const GRABBERS: readonly (readonly [process: string, remedy: string])[] = [
  ['ModemManager', '"sudo systemctl disable --now ModemManager", if this computer has no modem.'],
  ['brltty', '"sudo apt remove brltty", if nobody here reads by a braille display.'],
];

/** Every serial port of this computer: the name to bind it by, and whether this user may open it. Opens none. */
export async function checkPorts(parts: PortsParts): Promise<Finding[]> {
  const all = await scanPorts(parts.root);
  if (all.length === 0)
    return [
      note('No serial port is plugged in.', 'Nothing to do for the practice bench; a scale needs an adapter, see hardware/README.md.'),
    ];
  const each = await Promise.all(all.map((port) => checkPort(port, all, parts)));
  const adapters = all.some(({ identity }) => identity !== null);
  return [...each.flat(), ...(adapters ? await checkGrabbers(parts.root) : [])];
}

async function checkPort(port: ScannedPort, all: readonly ScannedPort[], parts: PortsParts): Promise<Finding[]> {
  const shared = twins(port, all).length > 0;
  const name = (shared ? null : port.byId) ?? port.byPath ?? port.device;
  const shown = `${name}${port.maker === null ? '' : ` (${port.maker})`}`;
  const findings = [await checkAccess(port, shown, parts)];
  if (shared) findings.push(note(`${shown} shares its by-id name with another adapter.`, FAILURE_ADVICE.ambiguous.todo));
  if (port.maySleep)
    findings.push(
      note(`${shown} may be put to sleep by the system.`, 'Switch USB autosuspend off for it: the rule is in hardware/README.md.'),
    );
  return findings;
}

async function checkAccess(port: ScannedPort, shown: string, { root, user, groups }: PortsParts): Promise<Finding> {
  const open = await access(port.device, constants.R_OK | constants.W_OK).then(
    () => true,
    () => false,
  );
  if (open) return fine(`${shown} may be opened.`);
  const { gid } = await stat(port.device);
  const group = (await groupsIn(root)).find((candidate) => candidate.gid === gid);
  const name = group?.name ?? String(gid);
  const todo =
    group !== undefined && group.members.includes(user) && !groups.includes(gid)
      ? `You have joined the group ${name} since you logged in: log out and in again.`
      : `Join the group that owns it: "sudo usermod -aG ${name} ${user}", then log out and in again. hardware/README.md has a rule that needs no group.`;
  // The computer's own port may be nobody's business; an adapter was plugged in for something.
  return (port.identity === null ? note : stop)(`${shown} may not be opened by ${user}.`, todo);
}

async function groupsIn(root: string): Promise<{ name: string; gid: number; members: string[] }[]> {
  const text = await readFile(join(root, 'etc/group'), 'utf8').catch(() => '');
  return text.split('\n').flatMap((line) => {
    const [name, , gid, members] = line.split(':');
    return name === undefined || gid === undefined ? [] : [{ name, gid: Number(gid), members: (members ?? '').split(',') }];
  });
}

async function checkGrabbers(root: string): Promise<Finding[]> {
  const ids = (await readdir(join(root, 'proc')).catch((): string[] => [])).filter((name) => /^\d+$/.test(name));
  const running = new Set(
    await Promise.all(
      ids.map((id) =>
        readFile(join(root, 'proc', id, 'comm'), 'utf8').then(
          (text) => text.trim(),
          () => '',
        ),
      ),
    ),
  );
  return GRABBERS.filter(([name]) => running.has(name)).map(([name, todo]) =>
    note(`${name} is running; it may hold a port for a while after it is plugged in.`, todo),
  );
}
