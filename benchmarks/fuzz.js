/**
 * The property tests of briefs and outlines, for long: `node benchmarks/fuzz.js [times] [seed]`. Whatever goes in, a finite result or a complete
 * error must come out; a failure prints the smallest input that shows it. 700 times is 100,000 random outlines given as points and a million briefs.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const [times = '20', seed = String(Date.now() % 1e6)] = process.argv.slice(2);
console.log(`${times} times what npm test draws, seed ${seed}`);
const { status } = spawnSync(
  'npx',
  ['vitest', 'run', 'any-brief', 'any-outline', '--testTimeout', '0', '--reporter', 'verbose'],
  {
    cwd: fileURLToPath(new URL('..', import.meta.url)),
    env: { ...process.env, FUZZ_TIMES: times, FUZZ_SEED: seed },
    stdio: 'inherit',
  },
);
process.exitCode = status ?? 1;
