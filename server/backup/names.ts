import type { Realm } from '#lib/work/batch/index';

/** A finished copy by its name in the folder of copies. */
export interface Backup {
  readonly name: string;
  readonly realm: Realm;
  /** When it was begun, ms. */
  readonly wall: number;
}

const NAME = /^(real|practice|test)-(\d{4}-\d{2}-\d{2}T\d{2}-\d{2}-\d{2})Z\.sqlite$/;

/** "real-2026-11-28T10-15-00Z.sqlite", UTC. */
export const backupName = (realm: Realm, wall: number): string =>
  `${realm}-${new Date(wall).toISOString().slice(0, 19).replaceAll(':', '-')}Z.sqlite`;

/** Finished copies among these names, newest first; anything else in the folder is none of ours. */
export const backupsAmong = (names: readonly string[]): readonly Backup[] =>
  names
    .flatMap((name) => {
      const [, realm, stamp = ''] = NAME.exec(name) ?? [];
      if (realm === undefined) return [];
      const [day = '', time = ''] = stamp.split('T');
      return [{ name, realm: realm as Realm, wall: Date.parse(`${day}T${time.replaceAll('-', ':')}Z`) }];
    })
    .toSorted((a, b) => b.wall - a.wall);

/** Of each record: so many of the newest, and the last of each month for so many months. */
const NEWEST = 7;
const MONTHS = 12;

/** Copies that have had their time, so that the folder never grows beyond nineteen of a record. */
export const outlived = (backups: readonly Backup[]): readonly Backup[] =>
  [...new Set(backups.map(({ realm }) => realm))].flatMap((realm) => {
    const own = backups.filter((one) => one.realm === realm).toSorted((a, b) => b.wall - a.wall);
    const months = new Set<string>();
    return own.filter(({ wall }, at) => {
      const month = new Date(wall).toISOString().slice(0, 7);
      const lastOfMonth = !months.has(month) && months.size < MONTHS;
      if (lastOfMonth) months.add(month);
      return at >= NEWEST && !lastOfMonth;
    });
  });
