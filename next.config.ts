import type { NextConfig } from 'next';

const config: NextConfig = {
  output: 'export',
  reactStrictMode: true,
  typedRoutes: true,
  poweredByHeader: false,
  agentRules: false,
  // Types are checked by `npm run types`, with our own flags, before anything is built.
  typescript: { ignoreBuildErrors: true },
  // The bench is opened by LAN address or by a name in development too; Next needs them listed.
  allowedDevOrigins: ['127.0.0.1', '*.local', 'bench.test'],
  turbopack: {
    // What every page would load first and none can come to. Left out by the names it is called: were something called otherwise one day,
    // it would only be loaded again.
    resolveAlias: {
      // Ways to the server besides a WebSocket, which is named where the socket is opened (app/_live/socket.ts).
      './transports/index.js': false,
      './transports/polling-xhr.js': false,
      './transports/polling-xhr.node.js': false,
      // Pages that are written out as files call nothing on a server by this; a build that would is refused.
      './reducers/server-action-reducer': false,
    },
  },
};

export default config;
