import { randomBytes, scrypt, timingSafeEqual } from 'node:crypto';
import { promisify } from 'node:util';
import type { KeptPin } from '../store/people';

const derive = promisify<string, Buffer, number, Buffer>(scrypt);
const BYTES = 32;

/** A PIN as it may be kept: a salt of its own and what scrypt makes of both. Off the main thread: readings go on meanwhile. */
export const sealPin = async (pin: string): Promise<KeptPin> => {
  const salt = randomBytes(16);
  return { salt: salt.toString('hex'), hash: (await derive(pin, salt, BYTES)).toString('hex') };
};

export const isPin = async (pin: string, { salt, hash }: KeptPin): Promise<boolean> => {
  const tried = await derive(pin, Buffer.from(salt, 'hex'), BYTES);
  const kept = Buffer.from(hash, 'hex');
  return kept.length === tried.length && timingSafeEqual(kept, tried);
};
