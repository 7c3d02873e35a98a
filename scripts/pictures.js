/**
 * Draws the pictures of the guide anew, of the front of the starter brief: `node scripts/pictures.js`, after `npm run build`. Beside them stands
 * which brief they are of; `test/readme.test.ts` fails when the starter brief has become another one.
 */
import { execFileSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const command = fileURLToPath(new URL('../packages/cli/bin/lumenfront.js', import.meta.url));
const pictures = fileURLToPath(new URL('../packages/cli/guide/pictures', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'lumenfront-pictures-'));
const run = (...argv) =>
  execFileSync(process.execPath, [command, ...argv, '--quiet'], { cwd: folder, stdio: 'ignore' });
try {
  run('front', '--verify', '0', '--out', 'front.json');
  run('report', '--channel', 'front.json', '--fast', '--out', 'front.html', '--pictures', '.');
  mkdirSync(pictures, { recursive: true });
  for (const name of ['front.svg', 'joint.svg']) copyFileSync(join(folder, name), join(pictures, name));
  const { brief } = JSON.parse(readFileSync(join(folder, 'front.json'), 'utf8'));
  writeFileSync(join(pictures, 'of-brief.txt'), `${brief.fingerprint}\n`);
} finally {
  rmSync(folder, { recursive: true });
}
