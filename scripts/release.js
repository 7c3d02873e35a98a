// Builds the three packages anew and packs them into ./packed, ready to be published: `npm run release`.
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const homes = ['core', 'optimizer', 'cli'].map((part) => join(root, 'packages', part));
const manifests = homes.map((home) => JSON.parse(readFileSync(join(home, 'package.json'), 'utf8')));
const run = (command, parameters, cwd = root) => execFileSync(command, parameters, { cwd, encoding: 'utf8' });

const [{ version }] = manifests;
const faults = [
  run('git', ['status', '--porcelain']) !== '' && 'there are changes that are not committed',
  manifests.some((other) => other.version !== version) && 'the packages have different versions',
  manifests.some(({ dependencies }) =>
    Object.entries(dependencies).some(([name, range]) => name.startsWith('@lumenfront/') && range !== version),
  ) && 'a package asks for another version of its fellows',
  !readFileSync(join(root, 'CHANGELOG.md'), 'utf8').includes(`\n## ${version} (2`) &&
    `CHANGELOG.md has no heading '## ${version} (date)'`,
].filter(Boolean);
if (faults.length > 0) {
  console.error(faults.map((fault) => `release: ${fault}`).join('\n'));
  process.exit(1);
}

const packed = join(root, 'packed');
for (const folder of [packed, ...homes.map((home) => join(home, 'dist'))])
  rmSync(folder, { recursive: true, force: true });
for (const home of homes) rmSync(join(home, 'tsconfig.tsbuildinfo'), { force: true });
run('npm', ['run', '--silent', 'build']);
mkdirSync(packed);
for (const home of homes)
  console.log(join('packed', run('npm', ['pack', '--silent', '--pack-destination', packed], home).trim()));
