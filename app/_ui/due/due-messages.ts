import { counted } from '#lib/words/words';

/** Words of logs that want a hand, in the head of every page and in a browser's own notice. */
export const dueMessages = {
  spoken: (count: number) => `, ${counted(count, 'log wants', 'logs want')} a hand`,
  notice: {
    unmould: (mark: string, name: string) => `${mark} ${name}: see whether it comes out`,
    cut: (mark: string, name: string) => `${mark} ${name}: cut it`,
    before: (when: string) => `Before ${when}, as set for this soap.`,
  },
} as const;
