import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'unit',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/desktop/**', 'tests/cli/**'],
          testTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'desktop',
          include: ['tests/desktop/**/*.test.ts', 'tests/cli/**/*.test.ts'],
          globalSetup: ['.tools/desktop-setup.mjs'],
          fileParallelism: false,
          testTimeout: 240_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
