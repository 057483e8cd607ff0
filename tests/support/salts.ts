import { SALT_BYTES } from '#lib/record/seal';

/** Bytes that count instead of being random: what is made twice from the same start is the same. */
export const saltsFrom = (start: number): ((bytes?: number) => Uint8Array) => {
  let n = start;
  return (bytes = SALT_BYTES) => {
    const salt = new Uint8Array(bytes);
    new DataView(salt.buffer).setFloat64(0, (n += 1));
    return salt;
  };
};
