import type { Shape } from '#lib/measure/shape';

const ascii = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.codePointAt(0) ?? 0);

/**
 * What has to be sent to make an instrument of that shape talk, and how often; `null` for those that stream by themselves.
 * Send the next one only when the last was answered or `everyMs` five times over has passed: a slow line must not fall behind.
 * `SI` (send at once, stable or not) is the command in the published example of `echo-marker`; that `letter-reply` answers to
 * `SI` too and `right-query` to `IP` is from memory. An instrument of these shapes set to stream needs no request and loses nothing by it.
 */
export const REQUEST: Readonly<Record<Shape, { readonly bytes: Uint8Array; readonly everyMs: number } | null>> = {
  'header-comma': null,
  'header-mode-comma': null,
  'echo-marker': { bytes: ascii('SI\r\n'), everyMs: 200 },
  'letter-reply': { bytes: ascii('SI\r\n'), everyMs: 200 },
  'stx-status': null,
  'right-query': { bytes: ascii('IP\r\n'), everyMs: 200 },
  'probe-line': null,
};
