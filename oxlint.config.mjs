import { readFileSync } from 'node:fs';

/**
 * Style and the house's order in one table. Core's rooms stand in reading order: a room may import only
 * itself and rooms above it. The import rules below are made from this list.
 */
const rooms = [
  { name: 'fault', packages: [] },
  { name: 'units', packages: [] },
  { name: 'mesh', packages: [] },
  { name: 'fabric', packages: [] },
  { name: 'body', packages: [], hidden: ['fabric'] },
  { name: 'pattern', packages: ['delaunator', '@kninnug/constrainautor'], hidden: ['fabric', 'body'] },
  { name: 'garment', packages: [] },
  { name: 'block', packages: [] },
  { name: 'equilibrium', packages: [] },
  { name: 'swatch', packages: [] },
  { name: 'fields', packages: [] },
  { name: 'judgement', packages: [] },
  { name: 'sheet', packages: ['d3-scale-chromatic'] },
  {
    name: 'io',
    packages: ['zod', '@gltf-transform/core'],
    hidden: ['equilibrium', 'swatch', 'judgement', 'sheet'],
  },
  { name: 'study', packages: [] },
  { name: 'proof', packages: [] },
  { name: 'words', packages: [] },
];

const shell = ['renderer', 'electron', 'tests'];

/** Forbids paths by pattern; `typesToo: false` lets `import type` through. */
const forbid = (group, message, typesToo = true) => ({ group, message, allowTypeImports: !typesToo });

const manifest = JSON.parse(readFileSync(new URL('./package.json', import.meta.url), 'utf8'));
const installed = Object.keys({ ...manifest.dependencies, ...manifest.devDependencies });

/** Every installed package save those named, and Node itself. */
const outside = (packages) => ({
  regex: `^(node:.*|(${installed.filter((name) => !packages.includes(name)).join('|')})(/.*)?)$`,
  message: 'Core is pure: no packages but those its line in oxlint.config.mjs names.',
});

const coreOverrides = rooms.map(({ name, packages, hidden = [] }, index) => {
  const later = [...rooms.slice(index + 1).map((room) => room.name), ...hidden];
  const patterns = [
    forbid(
      shell.map((room) => `**/${room}/**`),
      'Core never knows the screen or the disk.',
    ),
    ...(later.length > 0
      ? [
          forbid(
            later.map((room) => `**/${room}/**`),
            `core/${name} may import only the rooms above it: see DEVELOPERS.md.`,
          ),
        ]
      : []),
    outside(packages),
  ];
  return { files: [`core/${name}/**`], rules: { 'no-restricted-imports': ['error', { patterns }] } };
});

const restrict = (files, patterns) => ({
  files,
  rules: { 'no-restricted-imports': ['error', { patterns }] },
});

const noCoreValues = (...allowedRooms) => ({
  regex: `/core/(${rooms.flatMap(({ name }) => (allowedRooms.includes(name) ? [] : [name])).join('|')})/`,
  message:
    'Only the worker computes: take types here, and values of core/sheet and core/words in the window.',
  allowTypeImports: true,
});
const noElectron = forbid(
  ['electron', '**/electron/**'],
  'The window reaches the shell through renderer/bridge.',
);
const noNode = forbid(['node:*'], 'The window has no Node.');

export default {
  plugins: ['typescript', 'import', 'react', 'promise', 'unicorn', 'oxc'],
  categories: { correctness: 'error', suspicious: 'error' },
  rules: {
    'max-lines': ['error', { max: 400, skipBlankLines: true, skipComments: true }],
    'max-lines-per-function': ['error', { max: 80, skipBlankLines: true, skipComments: true }],
    'max-params': ['error', { max: 4 }],
    complexity: ['error', { max: 12 }],
    'import/no-cycle': 'error',
    'import/no-default-export': 'error',
    'typescript/no-floating-promises': 'error',
    'typescript/switch-exhaustiveness-check': 'error',
    'typescript/no-explicit-any': 'error',
    'typescript/no-non-null-assertion': 'off',
    'no-console': 'error',
    // The compiler's noImplicitReturns knows exhaustive switches; this rule does not.
    'typescript/consistent-return': 'off',
    'consistent-return': 'off',
    'no-shadow': 'off',
    'no-bitwise': 'off',
    'react/react-in-jsx-scope': 'off',
    'import/no-unassigned-import': 'off',
    'unicorn/no-array-sort': 'off',
    'unicorn/no-new-array': 'off',
  },
  overrides: [
    {
      files: ['core/**'],
      rules: {
        'no-restricted-globals': ['error', 'document', 'window', 'process', 'console', 'performance', 'Date'],
        'no-restricted-properties': ['error', { object: 'Math', property: 'random' }],
      },
    },
    ...coreOverrides,
    restrict(
      ['renderer/worker/**'],
      [
        noNode,
        noElectron,
        forbid(
          ['zustand*', 'react*', 'three*', '**/store/**', '**/scene/**', '**/panels/**', '**/bridge/**'],
          'The worker only computes.',
        ),
      ],
    ),
    restrict(
      ['renderer/bridge/**'],
      [
        noNode,
        forbid(
          ['electron', '**/electron/**', '!**/electron/contract.ts'],
          'Types of electron/contract only.',
        ),
        noCoreValues('sheet', 'words'),
      ],
    ),
    restrict(['renderer/words/**'], [noNode, noElectron, noCoreValues('sheet', 'words')]),
    restrict(
      ['renderer/store/**'],
      [
        noNode,
        noElectron,
        noCoreValues('sheet', 'words'),
        forbid(['**/scene/**', '**/panels/**', 'three*', 'react*'], 'Stores know neither picture nor paper.'),
      ],
    ),
    restrict(
      ['renderer/scene/**'],
      [
        noNode,
        noElectron,
        noCoreValues('sheet', 'words'),
        forbid(['**/panels/**', '**/worker/**'], 'Scene and panels meet in the store.'),
      ],
    ),
    restrict(
      ['renderer/panels/**'],
      [
        noNode,
        noElectron,
        noCoreValues('sheet', 'words'),
        forbid(
          ['**/scene/**', '**/worker/**', 'three*', '@react-three/*'],
          'Scene and panels meet in the store.',
        ),
      ],
    ),
    restrict(
      ['electron/*.ts'],
      [noCoreValues(), forbid(['**/renderer/**'], 'The shell moves bytes and knows no screen.')],
    ),
    restrict(
      ['electron/headless/**'],
      [forbid(['**/renderer/**', 'electron'], 'The command line knows no screen.')],
    ),
    { files: ['electron/headless/**', 'electron/launch/**', 'tests/**'], rules: { 'no-console': 'off' } },
    {
      files: ['tests/**'],
      rules: {
        'max-lines-per-function': 'off',
        complexity: 'off',
        'max-lines': 'off',
        'typescript/no-unsafe-type-assertion': 'off',
      },
    },
    { files: ['**/*.config.*'], rules: { 'import/no-default-export': 'off' } },
  ],
};
