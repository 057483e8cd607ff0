import { counted, listed } from '#lib/words/words';

/** Words of logs that want a hand, in the head of every page and in a browser's own notice. */
export const dueMessages = {
  spoken: (count: number) => `, ${counted(count, 'log wants', 'logs want')} a hand`,
  poured: {
    title: 'Poured',
    batch: (mark: string, name: string) => `${mark} ${name}`,
    said: (batches: readonly string[]) =>
      `No bars were begun from the moulds of ${listed(batches)}: until they are, nothing reminds of them and no order counts on them.`,
    act: 'Begin the bars',
  },
  notice: {
    unmould: (mark: string, name: string) => `${mark} ${name}: see whether it comes out`,
    cut: (mark: string, name: string) => `${mark} ${name}: cut it`,
    before: (when: string) => `Before ${when}, as set for this soap.`,
  },
} as const;
