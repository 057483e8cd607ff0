import { createStore } from 'zustand/vanilla';
import type { Display } from '#lib/units/display';

/** What a person set on this screen. Preferences only: no reading, batch or weight is ever kept on a page. */
export interface Preferences extends Omit<Display, 'locale'> {
  /** `auto`: the browser's own. */
  readonly locale: string;
  readonly muted: boolean;
  readonly voice: boolean;
  /** Who acts on this screen, by the pass that switching to them gave; `null`: nobody has said. Never a name: those may be erased. */
  readonly pass: string | null;
}

const KEY = 'potwatch.preferences';
const DEFAULTS: Preferences = { locale: 'auto', mass: 'g', temperature: 'C', muted: false, voice: true, pass: null };

const oneOf = <T extends string>(value: unknown, allowed: readonly T[], otherwise: T): T =>
  allowed.find((candidate) => candidate === value) ?? otherwise;

/** Whatever an older page, or a person, left there. */
export const readPreferences = (text: string | null): Preferences => {
  const kept = parsed(text);
  return {
    locale: typeof kept['locale'] === 'string' && isLocale(kept['locale']) ? kept['locale'] : DEFAULTS.locale,
    mass: oneOf(kept['mass'], ['g', 'oz', 'lb'], DEFAULTS.mass),
    temperature: oneOf(kept['temperature'], ['C', 'F'], DEFAULTS.temperature),
    muted: kept['muted'] === true,
    voice: kept['voice'] !== false,
    pass: typeof kept['pass'] === 'string' ? kept['pass'] : null,
  };
};

const parsed = (text: string | null): Readonly<Record<string, unknown>> => {
  try {
    const value: unknown = JSON.parse(text ?? '{}');
    return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};
  } catch {
    return {};
  }
};

const isLocale = (tag: string): boolean => {
  if (tag === 'auto') return true;
  try {
    return Intl.getCanonicalLocales(tag).length === 1;
  } catch {
    return false;
  }
};

/** Storage may be switched off or full; a preference is then kept while the page lives. */
const storage = {
  read: (key: string): string | null => {
    try {
      return localStorage.getItem(key);
    } catch {
      return null;
    }
  },
  write: (key: string, text: string): void => {
    try {
      localStorage.setItem(key, text);
    } catch {
      // Nothing is lost but the habit.
    }
  },
};

export const preferences = createStore<Preferences>(() => DEFAULTS);

/** Reads what was kept. Called once in the browser: the exported page itself is built with the defaults. */
export const recallPreferences = (): void => preferences.setState(readPreferences(storage.read(KEY)));

export const prefer = (change: Partial<Preferences>): void => {
  preferences.setState(change);
  storage.write(KEY, JSON.stringify(preferences.getState()));
};

/** How quantities are shown on this screen now. */
export const displayOf = ({ locale, mass, temperature }: Preferences): Display => ({
  locale: locale === 'auto' ? browserLocale() : locale,
  mass,
  temperature,
});

const browserLocale = (): string => (typeof navigator === 'undefined' ? 'en-GB' : navigator.language);

const TOKEN = 'potwatch.token';
/** What pairing returned: lets this screen hold the bench although it is elsewhere. */
export const token = { read: (): string | null => storage.read(TOKEN), keep: (value: string): void => storage.write(TOKEN, value) };
