const SCALES: Readonly<Record<string, string>> = { 'scale-main': 'big scale', 'scale-fine': 'small scale' };

/** What an instrument of a record is called that is bound no more: ids say the place. An id that says none stays as it is. */
export const unboundName = (id: string): string => SCALES[id] ?? id.replace(/^probe-([a-z]+)$/, '$1 probe');
