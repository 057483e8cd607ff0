import type { ScaleRole } from '#lib/measure/instrument';
import { startDevice } from '#tests/support/device';
import type { DeviceProcess } from '#tests/support/device';

export type Scales = Readonly<Record<ScaleRole, DeviceProcess>>;

export const DIVISION = { main: 100, fine: 10 } as const;

/** Two simulated scales on ttys of their own, each in another frame shape. They outlive the server. */
export const startScales = async (seed: number): Promise<Scales> => {
  const [main, fine] = await Promise.all([
    startDevice('--shape', 'header-comma', '--division', '0.1', '--capacity', '5000', '--seed', String(seed)),
    startDevice('--shape', 'right-query', '--division', '0.01', '--capacity', '300', '--seed', String(seed + 1)),
  ]);
  return { main, fine };
};

/** What truly stands on a scale and what is in it, mg. */
export const standingOn = async (scale: DeviceProcess): Promise<{ readonly vessel: string | null; readonly contents: number }> => {
  const { vessel, contents } = await scale.tell({ act: 'truth' });
  return { vessel: typeof vessel === 'string' ? vessel : null, contents: Number(contents ?? 0) };
};
