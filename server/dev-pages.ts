import type { DevPages } from './serve';

/** Next's development handler in this process: one port, one way in, as in production. */
export const openDevPages = async (root: string): Promise<DevPages> => {
  // Without this it looks up its maker's address at every start.
  process.env['NEXT_TELEMETRY_DISABLED'] ??= '1';
  const { default: next } = await import('next');
  const app = next({ dev: true, dir: root });
  await app.prepare();
  const handle = app.getRequestHandler();
  const upgrade = app.getUpgradeHandler();
  return {
    handle: (request, response) => handle(request, response),
    upgrade: (request, socket, head) => upgrade(request, socket, head),
  };
};
