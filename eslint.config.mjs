import hooks from 'eslint-plugin-react-hooks';
import tseslint from 'typescript-eslint';
import { importsRule } from './.tools/eslint-imports.mjs';

// One list for core's bans: restating a list for a subfolder would replace it.
const coreGlobals = [
  ['Date', 'Pass the date in: core/ has no clock.'],
  ['setTimeout', 'core/ has no clock.'],
  ['setInterval', 'core/ has no clock.'],
  ['performance', 'core/ has no clock; benchmarks time from outside.'],
  ['process', 'core/ knows no platform.'],
  ['document', 'core/ knows no screen.'],
  ['window', 'core/ knows no screen.'],
  ['fetch', 'core/ does no I/O.'],
].map(([name, message]) => ({ name, message }));

export default tseslint.config(
  { ignores: ['dist/**', 'dist-building-*/**', 'node_modules/**', '**/*.cjs'] },
  ...tseslint.configs.recommended,
  {
    files: ['**/*.ts', '**/*.tsx'],
    plugins: { house: { rules: { imports: importsRule } } },
    rules: {
      'house/imports': 'error',
      'max-lines': ['error', { max: 500 }],
      'no-console': 'error',
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
      'no-restricted-syntax': [
        'error',
        {
          selector: 'ExportDefaultDeclaration',
          message: 'Export by name, so that a thing has one name everywhere.',
        },
      ],
    },
  },
  {
    files: ['core/**/*.ts'],
    rules: {
      'no-restricted-globals': ['error', ...coreGlobals],
      'no-restricted-properties': [
        'error',
        { object: 'Math', property: 'random', message: 'core/ draws no ids and no luck: pass them in.' },
      ],
      'no-restricted-syntax': [
        'error',
        {
          selector: 'ExportDefaultDeclaration',
          message: 'Export by name, so that a thing has one name everywhere.',
        },
        {
          selector: 'Program > VariableDeclaration[kind="let"]',
          message: 'core/ keeps no state between calls.',
        },
        {
          selector: 'Program > ExportNamedDeclaration > VariableDeclaration[kind="let"]',
          message: 'core/ keeps no state between calls.',
        },
      ],
    },
  },
  {
    files: ['renderer/**/*.tsx', 'renderer/**/*.ts'],
    plugins: { 'react-hooks': hooks },
    rules: { 'react-hooks/rules-of-hooks': 'error', 'react-hooks/exhaustive-deps': 'error' },
  },
  {
    files: ['tests/bench/**', 'electron/cli/**', 'electron/start/**', 'demo-data/**', '.tools/**'],
    rules: { 'no-console': 'off' },
  },
);
