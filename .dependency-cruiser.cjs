/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
    { name: 'lib-is-pure', severity: 'error', from: { path: '^lib/' }, to: { path: '^(app|server|hardware|tests)/' } },
    { name: 'lib-no-node', severity: 'error', from: { path: '^lib/' }, to: { dependencyTypes: ['core'] } },
    { name: 'units-at-the-bottom', severity: 'error', from: { path: '^lib/units/' }, to: { path: '^lib/(?!units/)' } },
    { name: 'measure-below-work', severity: 'error', from: { path: '^lib/measure/' }, to: { path: '^lib/(work|bench|record|protocol)/' } },
    {
      name: 'soap-below-work',
      severity: 'error',
      from: { path: '^lib/soap/' },
      to: { path: '^lib/(work|bench|record|protocol|measure)/' },
    },
    { name: 'work-below-bench', severity: 'error', from: { path: '^lib/work/' }, to: { path: '^lib/(bench|protocol|words)/' } },
    {
      name: 'record-knows-no-kinds',
      severity: 'error',
      from: { path: '^lib/record/' },
      to: { path: '^lib/(work|bench|measure|protocol|soap)/' },
    },
    { name: 'hardware-knows-lib-only', severity: 'error', from: { path: '^hardware/' }, to: { path: '^(app|server|tests)/' } },
    {
      name: 'serialport-in-one-place',
      severity: 'error',
      from: { pathNot: '^hardware/ports/' },
      to: { path: 'node_modules/(serialport|@serialport)/' },
    },
    { name: 'server-never-app', severity: 'error', from: { path: '^server/' }, to: { path: '^(app|tests)/' } },
    {
      name: 'app-touches-no-server',
      severity: 'error',
      from: { path: '^app/' },
      to: { path: '^(server|hardware|tests)/', dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'socket-only-in-live',
      severity: 'error',
      from: { path: '^app/', pathNot: '^app/_live/' },
      to: { path: 'node_modules/socket.io-client/' },
    },
    { name: 'no-orphans', severity: 'warn', from: { orphan: true, pathNot: '\\.d\\.ts$|^app/|\\.mjs$' }, to: {} },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    // swc as dependency-cruiser calls it reads no JSX; components are held by the lint's import rules, cycles included.
    exclude: { path: '\\.tsx$' },
    tsPreCompilationDeps: true,
    // TypeScript 7 has no compiler API in JavaScript; swc reads the imports instead.
    parser: 'swc',
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'node', 'default', 'types'] },
  },
};
