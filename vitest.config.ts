import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const source = (path: string) => fileURLToPath(new URL(path, import.meta.url));

// Packages resolve to their sources, so that a test never runs against a stale build; the worker and the
// command are the exceptions (they run from dist, which `npm test` builds first).
const alias = {
  '@lumenfront/core': source('packages/core/src/index.ts'),
  '@lumenfront/optimizer': source('packages/optimizer/src/index.ts'),
};

const project = (name: string, include: string[]) => ({
  resolve: { alias },
  test: { name, include, testTimeout: 60_000, hookTimeout: 60_000 },
});

export default defineConfig({
  test: {
    projects: [
      project('core', ['packages/core/src/**/*.test.ts']),
      project('optimizer', ['packages/optimizer/src/**/*.test.ts']),
      project('cli', ['packages/cli/src/**/*.test.ts']),
      project('across', ['test/**/*.test.ts']),
    ],
  },
});
