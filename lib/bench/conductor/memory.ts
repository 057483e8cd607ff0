/** What the conductor remembers between steps: volatile, plain data, dropped by anything after which a gross weight means nothing. */
export interface ConductorMemory {
  /** Settled windows seen in this boot; every weight the record takes names one, and one is taken once. */
  readonly episode: number;
}
