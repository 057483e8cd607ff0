import { isIPv6 } from 'node:net';
import type { InstrumentConfig } from '#lib/measure/instrument';
import { clashOf } from '#lib/measure/clash';
import { deviceOf } from './bench/realm';
import { BadOption } from './options';

const HOST_NAME = /^[a-z0-9_]([a-z0-9._-]*[a-z0-9_])?$/i;

/** @throws BadOption where two of them cannot stand beside one another; ids are given by place. */
export const refuseTwice = (instruments: readonly InstrumentConfig[]): void => {
  for (const [i, config] of instruments.entries()) {
    const before = instruments.slice(0, i);
    if (before.some((other) => other.id === config.id)) throw new BadOption(`the ${config.name} is given twice`);
    if (clashOf(before, config, deviceOf) !== null)
      throw new BadOption(`${config.path} is given to two instruments; each needs a port of its own`);
  }
};

/** A name as a browser sends it: with a scheme, a port or a path it would be compared with what never comes. */
export const readHostName = (text: string): string => {
  if (HOST_NAME.test(text) || /^\[[0-9a-f:]+\]$/i.test(text)) return text;
  if (isIPv6(text)) return `[${text}]`;
  const name = text.replace(/^[a-z]+:\/\//i, '').split(/[:/]/)[0] ?? '';
  const hint = HOST_NAME.test(name) ? `; did you mean ${name}?` : ', such as bench.local';
  throw new BadOption(`--allow-host "${text}" is no host name${hint}`);
};
