/**
 * Every figure of `front`, `pick`, `check`, `deliver` and `scatter` of the starter brief, here and in another checkout that is built:
 * `node benchmarks/figures.js TREE [evaluations, default 1500]`. Tells how many are equal to the bit, the largest difference, and what only one of them has;
 * fails where anything differs.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { valuesByPath } from './values-by-path.js';

const [tree, evaluations = '1500'] = process.argv.slice(2);
if (tree === undefined) throw new Error('name the folder of another checkout');
const here = fileURLToPath(new URL('..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'lumenfront-figures-'));

/** What the commands write, by command; the later ones take the pick. */
function documentsOf(root, own) {
  const file = (name) => join(folder, `${own}-${name}`);
  const lumenfront = (...args) =>
    execFileSync(process.execPath, [join(root, 'packages/cli/bin/lumenfront.js'), ...args, '--quiet'], {
      env: { ...process.env, LUMENFRONT_CACHE: file('cache') },
      maxBuffer: 2 ** 28,
    }).toString();
  const brief = file('brief.yaml');
  lumenfront('brief', '--out', brief);
  writeFileSync(brief, readFileSync(brief, 'utf8').replace(/evaluations: \d+/, `evaluations: ${evaluations}`));
  const pick = file('pick.json');
  lumenfront('pick', brief, '--out', pick);
  const ofPick = (command, ...more) => JSON.parse(lumenfront(command, brief, '--channel', pick, ...more, '--json'));
  return {
    front: JSON.parse(lumenfront('front', brief, '--verify', '2', '--json')),
    pick: JSON.parse(readFileSync(pick, 'utf8')),
    check: ofPick('check'),
    deliver: ofPick('deliver'),
    scatter: ofPick('scatter'),
  };
}

/** Times differ from run to run. */
const isFigure = (path) => !/seconds|milliseconds|duration/i.test(path);

try {
  const [ours, theirs] = [documentsOf(here, 'here'), documentsOf(tree, 'there')];
  for (const command of Object.keys(ours)) {
    const [own, other] = [ours, theirs].map((documents) => valuesByPath(documents[command]));
    const paths = [...own.keys()].filter((path) => other.has(path) && isFigure(path));
    const unequal = paths.filter((path) => own.get(path) !== other.get(path));
    const numbers = unequal.filter((path) => typeof own.get(path) === 'number');
    const apart = (path) => Math.abs(own.get(path) / other.get(path) - 1);
    const worst = numbers.reduce((a, b) => (a === undefined || apart(b) > apart(a) ? b : a), undefined);
    const lone = own.size + other.size - 2 * [...own.keys()].filter((path) => other.has(path)).length;
    console.log(
      `${command}: ${paths.length - unequal.length} of ${paths.length} equal, ${lone} only in one` +
        (worst === undefined ? '' : `; at most ${apart(worst).toExponential(1)} off, ${worst}`) +
        unequal
          .filter((path) => !numbers.includes(path))
          .slice(0, 3)
          .map((path) => `; ${path}: ${own.get(path)}, there ${other.get(path)}`)
          .join(''),
    );
    if (unequal.length > 0 || lone > 0) process.exitCode = 1;
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
