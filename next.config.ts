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
};

export default config;
