import { createHash } from 'node:crypto';

/** SHA-256 (hex) over the parts of a row that no chain seals. */
export const sumOf = (...parts: readonly string[]): string => createHash('sha256').update(JSON.stringify(parts)).digest('hex');

/** SHA-256 (hex) of bytes. */
export const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
