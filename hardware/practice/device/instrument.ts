import type { Send } from '../voice/voice';
import type { DeviceAct } from './acts';

/** One simulated instrument, without its cable. It lives only as long as `pass` says. */
export interface Device {
  pass(ms: number): void;
  hear(bytes: Uint8Array): void;
  /** Somebody opened the line. */
  joined(): void;
  /** Acts of the hands wait for one another, all others are done at once; the answer comes by `DeviceParts`. */
  tell(act: DeviceAct): void;
  /** What is so, whatever the instrument says of it. Masses in mg, temperatures in thousandths of a degree. */
  truth(): Readonly<Record<string, string | number | boolean | null>>;
}

export interface DeviceParts {
  readonly say: Send;
  done(act: DeviceAct['act']): void;
  refused(act: DeviceAct['act'], why: string): void;
}

/** What an instrument does about an act: `null` when done or begun, else why not. An act it has no answer to is not for it. */
export type Answers = { readonly [A in DeviceAct['act']]?: (act: Extract<DeviceAct, { act: A }>) => string | null };

export const answer = (answers: Answers, act: DeviceAct): string | null => {
  const does = answers[act.act] as ((act: DeviceAct) => string | null) | undefined;
  return does === undefined ? 'not-for-this-instrument' : does(act);
};
