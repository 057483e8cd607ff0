import type { Day } from '#lib/units/day';
import type { Realm } from '#lib/work/batch/index';
import type { Task } from '#lib/work/orders/agenda';

/** What an agenda's codes are called, by id: formulas, materials, wraps, orders. */
export type NameOf = (id: string) => string;

/** How days and wall times are said. */
export interface Say {
  readonly day: (day: Day) => string;
  readonly moment: (wall: number) => string;
}

const bars = (count: number): string => (count === 1 ? '1 bar' : `${count} bars`);

const OF_REALM: Readonly<Record<Realm, string>> = { real: '', practice: 'Practice: ', test: 'Test: ' };

/** A line that leaves the workshop's own pages: what is invented says so in every one. */
export const inRealm = (realm: Realm, line: string): string => `${OF_REALM[realm]}${line}`;

/** A task as one line: what is to be done, and to what. */
export const taskTitle = (task: Task, name: NameOf): string => {
  switch (task.kind) {
    case 'pour':
      return `Pour ${name(task.formula)}`;
    case 'unmould':
      return `Unmould ${task.planned ? name(task.formula) : task.mark}`;
    case 'cut':
      return `Cut ${task.planned ? name(task.formula) : task.mark}`;
    case 'weigh':
      return `Weigh bars of ${task.mark}`;
    case 'ready':
      return `${task.planned ? name(task.formula) : task.mark} should be ready`;
    case 'buy':
      return `Order ${name(task.thing)}`;
    case 'due':
      break;
  }
  return `${task.order}: ${bars(task.bars)}`;
};

/** The same inside a sentence: what is to be done begins small, a name as it is. */
export const taskInside = (task: Task, name: NameOf): string => {
  const title = taskTitle(task, name);
  return task.kind === 'due' || task.kind === 'ready' ? title : `${title.charAt(0).toLowerCase()}${title.slice(1)}`;
};

/** What stands behind it; empty where the line says it all. */
export const taskNote = (task: Task, name: NameOf, { day, moment }: Say): string => {
  switch (task.kind) {
    case 'pour': {
      const late = task.late === 0 ? '' : ` Even so it may be ${task.late === 1 ? 'a day' : `${task.late} days`} too late.`;
      return `${bars(task.bars)} for ${name(task.order)}. The last safe day.${late}`;
    }
    case 'unmould':
      if (task.planned) return 'As planned, once it is poured.';
      return `${task.from === null ? 'If' : `From ${moment(task.from)}, if`} it comes out clean: soft logs wait.${
        task.before === null ? '' : ` Cut before ${moment(task.before)}.`
      }`;
    case 'cut':
      return task.planned
        ? 'As planned, once it is poured.'
        : task.before === null
          ? ''
          : `Before ${moment(task.before)}, as set for this soap.`;
    case 'weigh':
      return 'Narrows its ready date most.';
    case 'ready':
      return `Nine times in ten between ${day(task.ready.from)} and ${day(task.ready.by)}.`;
    case 'buy':
      return task.late ? 'It cannot be here in time any more, as far as is known.' : '';
    case 'due':
      break;
  }
  return '';
};
