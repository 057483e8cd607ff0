import Database from 'better-sqlite3';

/** User and group id of somebody without rights. */
export const NOBODY = 65_534;

/**
 * Gives up root's rights for good; without them it does nothing. Called after everything was loaded, the database driver's native part
 * among it, because the checkout may lie where only its owner can look.
 */
export const becomeNobody = (): void => {
  new Database(':memory:').close();
  if (process.getuid?.() !== 0) return;
  process.setgroups?.([]);
  process.setgid?.(NOBODY);
  process.setuid?.(NOBODY);
};

/** In the environment of a program of `tests/support`: it becomes nobody before it does anything. */
export const WITHOUT_RIGHTS = { WITHOUT_RIGHTS: 'yes' } as const;

/** Becomes nobody when the environment asks for it. */
export const asEnvironmentAsks = (): void => {
  if (process.env['WITHOUT_RIGHTS'] === WITHOUT_RIGHTS.WITHOUT_RIGHTS) becomeNobody();
};
