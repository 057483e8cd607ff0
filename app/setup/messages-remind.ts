import type { CanRemind } from '../_ui/due/remind';

/** Words of a browser's own notices. */
export const messages = {
  title: 'Notices of logs',
  isOn: 'This browser tells when a log can leave its mould or waits to be cut, while a page of it is open in any tab.',
  can: {
    can: 'This browser can tell when a log can leave its mould, while a page of it is open in any tab. The count beside Bars, Today and the calendar say it anyway.',
    'plain-http':
      'On plain http a browser shows no notices of its own: the count beside Bars, Today and the calendar to subscribe to (Bars, Orders and days) say when a log can leave its mould. By https, or on the bench machine itself, it can.',
    denied: 'This browser was told to show no notices of this page. Its settings for this page can allow it again.',
    absent: 'This browser has no notices. The count beside Bars, Today and the calendar say when a log can leave its mould.',
  } satisfies Record<CanRemind, string>,
  start: 'Tell me on this screen',
  stop: 'Tell me no longer',
} as const;
