/**
 * Cooling by a power of the difference u to the room, u′ = −k uⁿ, made straight: z = (u^(1−n) − 1)/(1 − n), or ln u for Newton's n = 1,
 * falls by k every second. A difference below zero, a vessel colder than its room, is mirrored by the caller.
 */
export const straight = (lnU: number, n: number): number => (n === 1 ? lnU : Math.expm1((1 - n) * lnU) / (1 - n));

/** Natural logarithm of u, back from z. */
export const lnDifference = (z: number, n: number): number => (n === 1 ? z : Math.log1p((1 - n) * z) / (1 - n));
