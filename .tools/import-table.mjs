// Which folder may import what. What is absent is forbidden, and a file that no row covers is an error.
//   uses:     folders whose values and types may be imported (a trailing * covers everything below)
//   types:    folders of which only types may be imported
//   packages: npm packages and `node:*`
// The deepest row that is a prefix of the file's folder decides.

/** @typedef {{ uses?: string[], types?: string[], packages?: string[] }} Row */

const STEPS = [
  'core/plan',
  'core/roof',
  'core/sheets',
  'core/seams',
  'core/details',
  'core/fastening',
  'core/welding',
  'core/verify',
  'core/quantities',
  'core/order',
  'core/price',
];

/** @type {Record<string, Row>} */
export const importTable = {
  'core/units': {},
  'core/geometry': { uses: ['core/units'], packages: ['robust-predicates', 'flatbush', 'clipper-lib'] },
  'core/plan': { uses: ['core/units', 'core/geometry'] },
  'core/roof': { uses: ['core/units', 'core/geometry'] },
  'core/rates': { uses: ['core/units'], packages: ['zod'] },
  'core/details': { uses: ['core/units', 'core/geometry', 'core/roof', 'core/rates'] },
  'core/sheets': { uses: ['core/units', 'core/geometry', 'core/roof'], types: ['core/details'] },
  'core/seams': { uses: ['core/units', 'core/geometry', 'core/roof', 'core/sheets'] },
  'core/fastening': {
    uses: ['core/units', 'core/geometry', 'core/roof', 'core/sheets', 'core/seams'],
    types: ['core/rates'],
  },
  'core/welding': {
    uses: ['core/units', 'core/geometry', 'core/roof', 'core/sheets', 'core/seams', 'core/rates'],
    types: ['core/details', 'core/fastening', 'core/verify'],
  },
  'core/verify': {
    uses: ['core/units'],
    types: ['core/geometry', 'core/roof', 'core/sheets', 'core/seams', 'core/fastening'],
  },
  'core/quantities': { uses: ['core/units', 'core/geometry'], types: [...STEPS, 'core/rates'] },
  'core/order': { uses: ['core/units', 'core/quantities', 'core/rates'], types: ['core/welding'] },
  'core/price': {
    uses: ['core/units', 'core/quantities', 'core/order', 'core/rates'],
    types: ['core/welding', 'core/sheets'],
    packages: ['decimal.js'],
  },
  'core/drawing': { uses: ['core/units', 'core/geometry'], types: [...STEPS] },
  'core/search': {
    uses: [
      'core/units',
      'core/geometry',
      'core/roof',
      'core/sheets',
      'core/seams',
      'core/fastening',
      'core/welding',
      'core/quantities',
      'core/order',
      'core/price',
      'core/rates',
      'core/verify',
      'core/details',
    ],
  },
  'core/job': { uses: ['core/*'], packages: ['zod', 'fflate'] },

  'shared/errors': {},
  'shared/settings': { uses: ['core/units'], packages: ['zod'] },
  'shared/channels': { uses: ['shared/errors', 'shared/settings'], types: ['core/*'], packages: ['zod'] },
  'shared/verbs': { uses: ['shared/errors'], types: ['core/*'], packages: ['zod'] },
  'shared/worker': { uses: ['shared/errors', 'shared/packs'], types: ['core/*'], packages: ['zod'] },
  'shared/solver': { types: ['core/sheets'], packages: ['highs'] },
  'shared/readers': {
    uses: ['shared/errors', 'core/plan'],
    types: ['core/*'],
    packages: ['pdfjs-dist', 'dxf-parser'],
  },
  'shared/packs': {
    uses: [
      'shared/errors',
      'shared/readers',
      'core/drawing',
      'core/plan',
      'core/units',
      'core/welding',
      'core/price',
      'core/job',
    ],
    types: ['core/*'],
    packages: ['@cantoo/pdf-lib', '@tarikjabiri/dxf', 'papaparse', 'fflate', 'uqr'],
  },

  'electron/main': {
    uses: ['shared/*', 'electron/handlers', 'electron/files'],
    packages: ['electron', 'node:*'],
  },
  'electron/handlers': {
    uses: ['shared/*', 'electron/files', 'core/job'],
    types: ['core/*'],
    packages: ['node:*'],
  },
  'electron/files': { uses: ['shared/*', 'core/job'], packages: ['node:*'] },
  'electron/preload': { uses: ['shared/channels', 'shared/errors'], packages: ['electron', 'zod'] },
  'electron/cli': {
    uses: ['shared/*', 'electron/files', 'core/*'],
    packages: ['node:*', 'zod', 'pdfjs-dist'],
  },
  'electron/host': { uses: ['shared/*', 'electron/handlers', 'electron/files'], packages: ['node:*'] },
  'electron/start': {
    uses: ['electron/host', 'electron/handlers', 'electron/files', 'shared/*'],
    packages: ['node:*'],
  },

  'renderer/app': {
    uses: ['renderer/*', 'shared/*', 'core/units', 'core/job', 'core/geometry', 'core/plan'],
    types: ['core/*'],
    packages: ['react', 'react-dom', '@fontsource/ibm-plex-sans'],
  },
  'renderer/document': {
    uses: ['core/job', 'core/units', 'shared/worker', 'shared/errors', 'shared/settings'],
    types: ['core/*'],
  },
  'renderer/tools': {
    uses: ['renderer/document', 'core/units', 'core/geometry', 'core/plan', 'core/roof', 'core/job'],
    types: ['core/*'],
  },
  'renderer/canvas': {
    uses: ['core/units', 'core/drawing', 'core/job', 'renderer/pdf', 'renderer/tools', 'renderer/document'],
    types: ['core/*', 'shared/worker'],
    packages: ['react'],
  },
  'renderer/pdf': { uses: ['shared/errors', 'core/plan'], types: ['core/*', 'shared/worker'] },
  'renderer/reader': {
    uses: ['core/geometry', 'core/plan', 'shared/errors', 'shared/readers', 'shared/worker'],
    packages: ['pdfjs-dist'],
  },
  'renderer/stages': {
    uses: [
      'renderer/document',
      'renderer/ui',
      'core/units',
      'core/plan',
      'core/welding',
      'core/price',
      'core/verify',
      'core/job',
    ],
    types: ['core/*', 'renderer/tools', 'shared/packs'],
    packages: ['react'],
  },
  'renderer/findings': {
    uses: ['renderer/document', 'renderer/ui', 'core/units'],
    types: ['core/*'],
    packages: ['react'],
  },
  'renderer/ui': { uses: ['core/units', 'core/price'], packages: ['react'] },
  'renderer/worker': {
    uses: [
      'core/job',
      'core/drawing',
      'shared/worker',
      'shared/errors',
      'shared/packs',
      'shared/readers',
      'shared/solver',
    ],
    types: ['core/*'],
  },
  'renderer/bridge': { uses: ['shared/*'] },

  'tests/support': {
    uses: ['core/*', 'shared/*', 'renderer/document', 'renderer/tools'],
    packages: ['fast-check', 'node:*', 'clipper-lib', '@cantoo/pdf-lib'],
  },
  'tests/core': {
    uses: ['core/*', 'shared/solver', 'tests/support'],
    packages: ['vitest', 'fast-check', 'node:*', 'decimal.js', 'clipper-lib', 'fflate'],
  },
  'tests/standards': {
    uses: ['core/*', 'shared/solver', 'tests/support'],
    packages: ['vitest', 'decimal.js'],
  },
  'tests/contracts': {
    uses: ['shared/*', 'electron/handlers', 'electron/files', 'core/job', 'tests/support'],
    packages: ['vitest', 'node:*'],
  },
  'tests/shared': {
    uses: ['shared/*', 'core/*', 'tests/support', 'demo-data'],
    packages: ['vitest', 'node:*', 'pdfjs-dist', '@cantoo/pdf-lib', 'fflate'],
  },
  'tests/editor': {
    uses: ['renderer/document', 'renderer/tools', 'renderer/ui', 'shared/worker', 'core/*', 'tests/support'],
    packages: ['vitest', 'fast-check'],
  },
  'tests/desktop': { uses: ['tests/support'], packages: ['vitest', 'playwright', 'node:*'] },
  'tests/cli': { uses: ['tests/support'], packages: ['vitest', 'node:*', 'fflate'] },
  'tests/fuzz': {
    uses: ['core/*', 'shared/*', 'renderer/document', 'tests/support'],
    packages: ['vitest', 'fast-check', 'node:*'],
  },
  'tests/bench': {
    uses: ['core/*', 'shared/*', 'tests/support'],
    packages: ['node:*', 'clipper-lib', 'playwright'],
  },
  'tests/architecture': { packages: ['vitest', 'node:*', 'eslint'] },

  'demo-data': {
    uses: ['core/*', 'shared/packs', 'shared/readers'],
    packages: ['@cantoo/pdf-lib', 'fflate', 'node:*', 'zod'],
  },
};
