import { addDays } from '#lib/units/day';
import type { Day } from '#lib/units/day';

/** Something that is to be done on a day. */
export interface Due {
  /** The same for the same thing for ever, so that a calendar that asks again moves it and does not double it. */
  readonly id: string;
  readonly day: Day;
  /** Wall times between which it is to be done: the calendar rings when they begin. `null`: the whole day. */
  readonly hours: { readonly from: number; readonly to: number } | null;
  readonly title: string;
  readonly note: string;
}

/** Octets of a line, its end apart (RFC 5545, 3.1). */
const LINE = 75;

/**
 * A calendar to subscribe to: RFC 5545, whole days, and hours with an alarm (3.6.6) where hours count.
 * @param stamp when it was made, ms since 1970
 * @param host stands behind the ids, so that they are unique in the world
 */
export const iCalendar = (name: string, dues: readonly Due[], stamp: number, host: string): string =>
  [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Potwatch//Workshop days//EN',
    'CALSCALE:GREGORIAN',
    'METHOD:PUBLISH',
    `NAME:${text(name)}`,
    ...dues.flatMap(({ id, day, hours, title, note }) => [
      'BEGIN:VEVENT',
      `UID:${text(id)}@${text(host)}`,
      `DTSTAMP:${utc(stamp)}`,
      ...(hours === null
        ? // The end is not part of it (RFC 5545, 3.6.1).
          [`DTSTART;VALUE=DATE:${basic(day)}`, `DTEND;VALUE=DATE:${basic(addDays(day, 1))}`]
        : [`DTSTART:${utc(hours.from)}`, `DTEND:${utc(hours.to)}`]),
      `SUMMARY:${text(title)}`,
      ...(note === '' ? [] : [`DESCRIPTION:${text(note)}`]),
      'TRANSP:TRANSPARENT',
      ...(hours === null ? [] : ['BEGIN:VALARM', 'ACTION:DISPLAY', 'TRIGGER:PT0S', `DESCRIPTION:${text(title)}`, 'END:VALARM']),
      'END:VEVENT',
    ]),
    'END:VCALENDAR',
  ]
    .map((line) => `${folded(line)}\r\n`)
    .join('');

const basic = (day: Day): string => day.replaceAll('-', '');
const utc = (ms: number): string =>
  new Date(ms)
    .toISOString()
    .replaceAll(/[-:]/g, '')
    .replace(/\.\d+Z$/, 'Z');

/** RFC 5545, 3.3.11. Control characters have no place in a text. */
const text = (value: string): string =>
  value
    .replaceAll(/\r\n?/g, '\n')
    // oxlint-disable-next-line no-control-regex
    .replaceAll(/[\u0000-\u0009\u000B-\u001F\u007F]/g, ' ')
    .replaceAll(/[\\;,]/g, String.raw`\$&`)
    .replaceAll('\n', String.raw`\n`);

/** Lines longer than 75 octets go on behind a space; never cut inside a character. */
const folded = (line: string): string => {
  const parts: string[] = [];
  let part = '';
  let octets = 0;
  for (const character of line) {
    const size = new TextEncoder().encode(character).length;
    if (octets + size > LINE) {
      parts.push(part);
      part = ' ';
      octets = 1;
    }
    part += character;
    octets += size;
  }
  return [...parts, part].join('\r\n');
};
