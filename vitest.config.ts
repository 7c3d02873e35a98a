import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { builtPackages } from './test/fixtures/built-packages.js';

const source = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** The packages by name. */
const alias = {
  '@lumenfront/core': source('packages/core/src/index.ts'),
  '#kinds': source('packages/core/src/host/kinds.ts'),
  '#seldom': source('packages/core/src/brief/seldom.ts'),
  '#judging': source('packages/core/src/channel/judging.ts'),
  '#briefs': source('packages/core/src/host/briefs.ts'),
  '#checks': source('packages/core/src/host/checks.ts'),
  '#loaders': source('packages/core/src/host/no-loaders.ts'),
  '@lumenfront/optimizer': source('packages/optimizer/src/index.ts'),
};

/** They register hosts and change the folder. */
const alone = ['test/third-host.test.ts', 'test/whole-answer.test.ts', 'test/guide.test.ts'];

/** `npm run coverage` runs the sources themselves: `--mode sources`. */
export default defineConfig(({ mode }) => {
  /** `isolate`: every file in a process of its own; else the files of a project share processes and load modules once. */
  const project = (name: string, include: string[], isolate: boolean, exclude: string[] = []) => ({
    resolve: { alias },
    plugins: mode === 'sources' ? [] : [builtPackages],
    test: {
      name,
      include,
      exclude,
      isolate,
      testTimeout: 60_000,
      hookTimeout: 60_000,
      server: { deps: { external: [/\/packages\/[a-z]+\/dist\//] } },
    },
  });
  return {
    test: {
      globalSetup: ['test/fixtures/build-first.ts', 'test/fixtures/own-cache.ts'],
      // By default one core is left idle: half of a machine of two.
      maxWorkers: '100%',
      tags: [
        {
          name: 'long',
          description: 'Belongs to `npm run test:all`: what holds a release, and takes minutes together.',
        },
      ],
      /** `npm run coverage`: lines and branches of the two packages that compute. */
      coverage: {
        provider: 'v8',
        include: ['packages/core/src/**/*.ts', 'packages/optimizer/src/**/*.ts'],
        exclude: ['**/*.test.ts', '**/*.d.ts'],
        reporter: ['text', 'json-summary'],
      },
      projects: [
        // Nothing there outlives a call but tables that depend on nothing else.
        project('shared', ['packages/*/src/**/*.test.ts', 'test/**/*.test.ts'], false, alone),
        project('alone', alone, true),
      ],
    },
  };
});
