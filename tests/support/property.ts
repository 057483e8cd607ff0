/**
 * fast-check as every property test here has it: one seed unless told, so that a suite that passed passes again on the same code, and a new
 * counterexample belongs to the change that met it. `SEED=any` (or a whole number) looks elsewhere; what failed prints the seed it had.
 */
import fc from 'fast-check';

const told = process.env['SEED'];
const seed = told === undefined ? 26_11 : Number(told);
if (told === 'any') fc.configureGlobal({});
else if (Number.isInteger(seed)) fc.configureGlobal({ seed });
else throw new Error(`SEED is a whole number or "any", not "${told}"`);

export default fc;
