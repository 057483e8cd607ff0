/** The temperatures, in every way the weighing shows them besides their numbers: one part to fetch. */
export { Holds } from './holds';
export { Making, MakingCautions } from './making';
export { PassingTemperatures } from './passing-temperatures';
export { Temperatures } from './temperatures';
