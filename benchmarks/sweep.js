// A sweep with one worker and with one per core: `node benchmarks/sweep.js [cases] [evaluations]` after `npm run build`.
// Each takes the same cases into a folder of its own, with an empty cache; three times each, in turns. Some minutes.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  combine,
  createCasePool,
  createLocalEngine,
  readVariation,
  runSweep,
} from '../packages/cli/dist/sweep/index.js';
import { readBriefText, starterBrief } from '../packages/core/dist/index.js';
import { openCase } from '../packages/optimizer/dist/index.js';
import { summary } from './timing.js';

const [count = 200, evaluations = 1000] = process.argv.slice(2).map(Number);
const repeats = 3;
const cores = availableParallelism();

const { data } = await readBriefText(starterBrief);
const variations = [
  `search.seed=1..${Math.ceil(count / 4)}`,
  'host.bendRadius=6..9',
  `search.evaluations=${evaluations}`,
];
const variants = await combine(data, await Promise.all(variations.map(readVariation)), 'cross');
const cases = await Promise.all(variants.map((variant) => openCase(variant, 'pick', 'benchmark')));

const folder = mkdtempSync(join(tmpdir(), 'lumenfront-benchmark-'));
async function timed(workers, name) {
  process.env.LUMENFRONT_CACHE = join(folder, name, 'cache');
  const started = performance.now();
  const { figures } = await runSweep({
    cases,
    folder: join(folder, name),
    version: 'benchmark',
    retry: false,
    engine: createLocalEngine(() => createCasePool(workers)),
    signal: new AbortController().signal,
  });
  const seconds = (performance.now() - started) / 1000;
  const failed = figures.filter(({ error }) => error !== undefined).length;
  const lines = readFileSync(join(folder, name, 'results.ndjson'), 'utf8')
    .split('\n')
    .sort()
    .join('\n');
  return { seconds, failed, lines };
}

try {
  const runs = { 1: [], [cores]: [] };
  for (let k = 0; k < repeats; k++)
    for (const workers of [1, cores]) runs[workers].push(await timed(workers, `${k}-${workers}`));
  const seconds = (workers) => summary(runs[workers].map((run) => run.seconds));
  console.log(`${cases.length} picks of ${evaluations} evaluations, ${runs[1][0].failed} of them cannot be met`);
  console.log('workers  minimum   median  seconds');
  for (const workers of [1, cores]) {
    const { minimum, median } = seconds(workers);
    console.log(`${String(workers).padStart(7)}  ${minimum.toFixed(2).padStart(7)}  ${median.toFixed(2).padStart(7)}`);
  }
  const [one, more] = [seconds(1), seconds(cores)];
  const times = (key) => (one[key] / more[key]).toFixed(2);
  console.log(`times as fast: ${times('minimum')} by the minima, ${times('median')} by the medians`);
  const all = Object.values(runs).flat();
  console.log(all.every(({ lines }) => lines === all[0].lines) ? 'same results' : 'results differ');
} finally {
  rmSync(folder, { recursive: true });
}
