/** One thing two hands do. They do one at a time. */
export interface Task {
  readonly name: 'set-down' | 'lift' | 'pour' | 'take-probe-out' | 'pause';
  /** One step; `true` when done. */
  step(): boolean;
  /** Milligrams between two vessels. */
  airborne(): number;
  /** The hand stops early; what has left still arrives. */
  stop(): void;
}
