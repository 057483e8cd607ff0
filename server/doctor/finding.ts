/** `stop`: the job cannot be done until it is put right. `note`: worth knowing, or worth doing. */
export interface Finding {
  readonly level: 'fine' | 'note' | 'stop';
  readonly said: string;
  /** What to do about it. */
  readonly todo?: string;
}

export const fine = (said: string): Finding => ({ level: 'fine', said });
export const note = (said: string, todo: string): Finding => ({ level: 'note', said, todo });
export const stop = (said: string, todo: string): Finding => ({ level: 'stop', said, todo });
