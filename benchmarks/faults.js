/**
 * Processes that are killed (SIGKILL) at random moments, again and again: a front, a sweep, a report, and writes into the cache of models.
 * Run: npm run build && node benchmarks/faults.js [kills of each, default 100] [seed, default 1] [word of a scenario, default all]
 * Never may a file be half, an entry of the cache be poisoned, or a run that is begun again give anything but what an undisturbed one gives.
 */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readModel, writeModel } from '../packages/cli/dist/prepare/index.js';
import { randomFrom } from './random-tees.js';

const own = fileURLToPath(import.meta.url);
const command = fileURLToPath(new URL('../packages/cli/bin/lumenfront.js', import.meta.url));

const plate = `host: { kind: plate, material: generic-epoxy-resin }
loads: { farField: { sx: 10, sy: 5 } }
channel: { families: [ellipse], largest: { width: 4, height: 4 } }
allow: 22
search: { evaluations: 100 }
`;

/** Numbers in place of those of a joint, 3 MB: that a model is whole is told by its bytes. */
const model = { kind: 'plate', numbers: Float64Array.from({ length: 400_000 }, (_, i) => Math.sin(i)) };
const key = 'a'.repeat(64);

if (process.argv[2] === 'write') {
  // The child of the scenario `cache`.
  for (;;) writeModel(process.argv[3], key, model);
}

const kills = Number(process.argv[2] ?? 100);
const random = randomFrom(Number(process.argv[3] ?? 1));
const word = process.argv[4] ?? '';

const folder = mkdtempSync(join(tmpdir(), 'lumenfront-kills-'));
const at = (...names) => join(folder, ...names);
writeFileSync(at('plate.yaml'), plate);
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));

/** To its end. */
function run(argv) {
  const start = performance.now();
  const { status, stderr } = spawnSync(process.execPath, argv, { encoding: 'utf8' });
  if (status !== 0) throw new Error(`${argv.join(' ')} ended with ${status}: ${stderr}`);
  return performance.now() - start;
}

/** Kills a process after `delay` ms, unless it has ended; whether it was killed. */
function killed(argv, delay) {
  const child = spawn(process.execPath, argv, { stdio: 'ignore' });
  const ended = new Promise((resolve) => child.once('close', (_, signal) => resolve(signal === 'SIGKILL')));
  const timer = setTimeout(() => child.kill('SIGKILL'), delay);
  return ended.finally(() => clearTimeout(timer));
}

const check = (holds, what) => {
  if (!holds) throw new Error(what);
};

/** A file that a command replaces is there, and whole, at any moment: the same bytes in every run. */
async function replaced(argv, file) {
  const usual = run(argv);
  const whole = readFileSync(file, 'utf8');
  let count = 0;
  while (count < kills) {
    // More often near the end, where files are written.
    const share = random.next() < 0.3 ? random.between(0, 0.8) : random.between(0.8, 1);
    if (await killed(argv, share * usual)) count++;
    check(readFileSync(file, 'utf8') === whole, `${file} is not what it was`);
  }
  run(argv);
  check(readFileSync(file, 'utf8') === whole, `${file} is another one after ${count} kills`);
  return count;
}

/** What cases gave, without how long they took. */
function casesOf(place) {
  const lines = readFileSync(at(place, 'results.ndjson'), 'utf8')
    .split('\n')
    .filter(Boolean)
    .map((line) => JSON.parse(line));
  const ids = lines.map((line) => line.case);
  check(new Set(ids).size === ids.length, 'a case was counted twice');
  const plain = JSON.stringify(
    lines.sort((a, b) => (a.case < b.case ? -1 : 1)),
    (name, value) => (['seconds', 'created', 'duration'].includes(name) ? undefined : value),
  );
  return { count: lines.length, plain };
}

const scenarios = {
  async front() {
    return replaced(
      [command, 'front', at('plate.yaml'), '--verify', '0', '--quiet', '--json', '--out', at('f.json'), '--force'],
      at('f.json'),
    );
  },
  async report() {
    run([command, 'front', at('plate.yaml'), '--verify', '0', '--quiet', '--json', '--out', at('r.json'), '--force']);
    return replaced(
      [
        command,
        'report',
        at('plate.yaml'),
        '--channel',
        at('r.json'),
        '--fast',
        '--quiet',
        '--out',
        at('r.html'),
        '--force',
      ],
      at('r.html'),
    );
  },
  async sweep() {
    const argv = (place) => [
      command,
      'sweep',
      at('plate.yaml'),
      '--vary',
      'allow=16..30 step 1',
      '--out',
      at(place),
      '--quiet',
      '--workers',
      '1',
    ];
    const usual = run(argv('whole'));
    const whole = casesOf('whole');
    let count = 0;
    for (let times = 0; count < kills; times++) {
      const place = `s${times}`;
      // Killed until it has come to its end.
      while (await killed(argv(place), random.between(0.4, 1.1) * usual)) {
        count++;
        if (!existsSync(at(place, 'results.ndjson'))) continue;
        // A last line without its end is none: whoever goes on cuts it off.
        for (const line of readFileSync(at(place, 'results.ndjson'), 'utf8').split('\n').slice(0, -1)) JSON.parse(line);
      }
      const { count: cases, plain } = casesOf(place);
      check(cases === whole.count && plain === whole.plain, `the sweep ${place} ended with other results`);
    }
    return count;
  },
  async cache() {
    const place = at('cache');
    const notes = [];
    let count = 0;
    writeModel(place, key, model);
    while (count < kills) {
      if (await killed([own, 'write', place], 300 + random.between(0, 400))) count++;
      const read = readModel(place, key, (text) => notes.push(text));
      check(notes.length === 0 && read !== undefined, `the cache is poisoned: ${notes.join('; ')}`);
      check(
        read.numbers.every((value, i) => value === model.numbers[i]),
        'a model has other numbers',
      );
    }
    console.log(`cache: ${readdirSync(place).length - 1} temporary files left, cleared after an hour`);
    return count;
  },
};

for (const [name, scenario] of Object.entries(scenarios)) {
  if (!name.includes(word)) continue;
  console.log(`${name}: ${await scenario()} kills, nothing half, nothing lost`);
}
