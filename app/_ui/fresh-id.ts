const LETTERS = 12;

/** A name for a document made on this page. */
export const freshId = (kind: string): string =>
  `${kind}-${[...crypto.getRandomValues(new Uint8Array(LETTERS))].map((byte) => (byte % 36).toString(36)).join('')}`;
