// @vitest-environment jsdom
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { canRemind, recallReminding, remind, reminding, startReminding, stopReminding } from '../../../app/_ui/due/remind';

const shown: [string, unknown][] = [];
let permission: NotificationPermission;
class Notice {
  static get permission(): NotificationPermission {
    return permission;
  }
  static requestPermission = (): Promise<NotificationPermission> => Promise.resolve((permission = asked));
  constructor(title: string, options: unknown) {
    shown.push([title, options]);
  }
}
let asked: NotificationPermission;

beforeEach(() => {
  shown.length = 0;
  permission = 'default';
  asked = 'granted';
  vi.stubGlobal('isSecureContext', true);
  vi.stubGlobal('Notification', Notice);
});
afterEach(() => {
  stopReminding();
  localStorage.clear();
  vi.unstubAllGlobals();
});

it('tells only where a person asked for it and the browser allowed it, and remembers that on this screen', async () => {
  remind('log unmould', 'see whether it comes out', '');
  expect(shown).toEqual([]);
  await startReminding();
  remind('log unmould', 'see whether it comes out', 'by five');
  expect(shown).toEqual([['see whether it comes out', { tag: 'log unmould', body: 'by five' }]]);
  reminding.setState(false, true);
  recallReminding();
  expect(reminding.getState()).toBe(true);
  stopReminding();
  remind('log cut', 'cut it', '');
  expect(shown).toHaveLength(1);
});

it('says why it cannot: plain http, a person who refused, a browser without it', async () => {
  expect(canRemind()).toBe('can');
  asked = 'denied';
  await startReminding();
  expect([reminding.getState(), canRemind()]).toEqual([false, 'denied']);
  vi.stubGlobal('isSecureContext', false);
  expect(canRemind()).toBe('plain-http');
  reminding.setState(true, true);
  permission = 'granted';
  remind('log cut', 'cut it', '');
  expect(shown).toEqual([]);
});

it('a browser that allows it and has no such thing ends nothing', async () => {
  await startReminding();
  vi.stubGlobal(
    'Notification',
    class extends Notice {
      constructor() {
        super('', null);
        throw new TypeError('use a service worker');
      }
    },
  );
  expect(() => remind('log cut', 'cut it', '')).not.toThrow();
});
