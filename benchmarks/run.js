// The quick benchmarks, one after the other. The long ones are named at the end: run them by hand.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const quick = ['linear.js', 'outline.js', 'stress.js', 'flow.js', 'sizes.js'];
const long = [
  'optimizer-anchors.js',
  'search.js',
  'agreement.js',
  'agreement-families.js',
  'agreement-side-by-side.js',
  'strength.js',
  'sweep.js',
  'fuzz.js',
];

for (const name of quick) {
  console.log(`\n== ${name}`);
  const { status } = spawnSync(process.execPath, [fileURLToPath(new URL(name, import.meta.url))], { stdio: 'inherit' });
  if (status !== 0) process.exit(status ?? 1);
}
console.log(`\nnot run, minutes each: ${long.map((name) => `node benchmarks/${name}`).join(', ')}`);
