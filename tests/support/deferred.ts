/** A promise that somebody else fulfils, or gives up. */
export interface Deferred<T> {
  readonly promise: Promise<T>;
  readonly resolve: (value: T) => void;
  readonly reject: (why: Error) => void;
}

export function deferred<T = void>(): Deferred<T> {
  let resolve!: (value: T) => void;
  let reject!: (why: Error) => void;
  const promise = new Promise<T>((fulfil, refuse) => {
    resolve = fulfil;
    reject = refuse;
  });
  return { promise, resolve, reject };
}
