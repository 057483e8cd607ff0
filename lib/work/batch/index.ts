export type * from './plan';
export type * from './entries';
export type * from './commands';
export type * from './state';
