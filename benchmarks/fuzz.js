/**
 * The property tests of briefs, files, outlines and load cases, for long: `node benchmarks/fuzz.js [cases, default 5000] [seed] [word of a property's name, default all]`.
 * So many cases of every property; whatever goes in, a finite result or a complete error must come out, in bounded time and memory: what is live at
 * the ends of tenths is told. A failure prints the smallest input that shows it.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const [cases = '5000', seed = String(Date.now() % 1e6), word] = process.argv.slice(2);
console.log(`${cases} cases of every property, seed ${seed}`);
const { status } = spawnSync(
  'npx',
  [
    ...[
      'vitest',
      'run',
      // Every file of such properties is named so.
      '/any-',
      '--testTimeout',
      '0',
      '--reporter',
      'verbose',
      '--maxWorkers',
      '1',
    ],
    ...(word === undefined ? [] : ['--testNamePattern', word]),
  ],
  {
    cwd: fileURLToPath(new URL('..', import.meta.url)),
    env: { ...process.env, FUZZ_CASES: cases, FUZZ_SEED: seed },
    stdio: 'inherit',
  },
);
process.exitCode = status ?? 1;
