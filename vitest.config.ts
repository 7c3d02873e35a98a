import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const source = (path: string) => fileURLToPath(new URL(path, import.meta.url));

// Packages resolve to their sources, so that a test never runs against a stale build; the worker and the
// command are the exceptions (they run from dist, which `npm test` builds first).
const alias = {
  '@lumenfront/core': source('packages/core/src/index.ts'),
  '#kinds': source('packages/core/src/host/kinds.ts'),
  '#briefs': source('packages/core/src/host/briefs.ts'),
  '#checks': source('packages/core/src/host/checks.ts'),
  '#loaders': source('packages/core/src/host/no-loaders.ts'),
  '@lumenfront/optimizer': source('packages/optimizer/src/index.ts'),
};

/** They register hosts and change the folder. */
const alone = ['test/third-host.test.ts', 'test/whole-answer.test.ts', 'test/guide.test.ts'];

/** `isolate`: every file in a process of its own; else the files of a project share processes and load modules once. */
const project = (name: string, include: string[], isolate: boolean, exclude: string[] = []) => ({
  resolve: { alias },
  test: { name, include, exclude, isolate, testTimeout: 60_000, hookTimeout: 60_000 },
});

export default defineConfig({
  test: {
    globalSetup: 'test/fixtures/own-cache.ts',
    // By default one core is left idle: half of a machine of two.
    maxWorkers: '100%',
    /** `npm run coverage`: lines and branches of the two packages that compute. */
    coverage: {
      provider: 'v8',
      include: ['packages/core/src/**/*.ts', 'packages/optimizer/src/**/*.ts'],
      exclude: ['**/*.test.ts', '**/*.d.ts'],
      reporter: ['text', 'json-summary'],
    },
    projects: [
      // Nothing there outlives a call but tables that depend on nothing else.
      project('core', ['packages/core/src/**/*.test.ts'], false),
      project('optimizer', ['packages/optimizer/src/**/*.test.ts'], false),
      project('cli', ['packages/cli/src/**/*.test.ts'], false),
      project('across', ['test/**/*.test.ts'], false, alone),
      project('alone', alone, true),
    ],
  },
});
