import type { ScaleShape } from '#lib/measure/shape';

/** What a scale does about a command it hears. `as` is the command its frame echoes where the shape echoes. */
export type Answer =
  | { readonly kind: 'now'; readonly as: 'S' | 'SI' }
  /** Sends a frame once stable, or `late` when that takes too long. */
  | { readonly kind: 'when-stable'; readonly first: string; readonly late: string; readonly as: 'S' | 'SI' }
  | { readonly kind: 'stream'; readonly on: boolean; readonly first: string }
  | { readonly kind: 'say'; readonly text: string };

type Poll = (command: string) => Answer | null;

const deaf: Poll = () => null;

/** `S`, `SI` and the answers `S A`, `S E` are in the published layout; `C1`, `C0` and `ES` are from memory. */
const echoMarker: Poll = (command) => {
  switch (command) {
    case 'SI':
      return { kind: 'now', as: 'SI' };
    case 'S':
      return { kind: 'when-stable', first: 'S A', late: 'S E', as: 'S' };
    case 'C1':
      return { kind: 'stream', on: true, first: 'C1 A' };
    case 'C0':
      return { kind: 'stream', on: false, first: 'C0 A' };
    default:
      return { kind: 'say', text: 'ES' };
  }
};

/** `S I` (not executable) is in the layout; the commands are from memory. */
const letterReply: Poll = (command) => {
  switch (command) {
    case 'SI':
      return { kind: 'now', as: 'SI' };
    case 'S':
      return { kind: 'when-stable', first: '', late: 'S I', as: 'S' };
    case 'SIR':
      return { kind: 'stream', on: true, first: '' };
    default:
      return { kind: 'say', text: 'ES' };
  }
};

/** From memory: `IP` prints at once, `P` what is shown. */
const rightQuery: Poll = (command) => (command === 'IP' || command === 'P' ? { kind: 'now', as: 'SI' } : null);

/** What each shape does about a command, without its line end; `null`: says nothing. */
export const POLL: Readonly<Record<ScaleShape, Poll>> = {
  'header-comma': deaf,
  'header-mode-comma': deaf,
  'echo-marker': echoMarker,
  'letter-reply': letterReply,
  'stx-status': deaf,
  'right-query': rightQuery,
};
