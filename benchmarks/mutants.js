/**
 * Mutation score of a room: faults put into its built code at random places, one at a time, each against the room's own quick tests.
 * Run: npm run build && node benchmarks/mutants.js [room, default core/strength] [mutants, default 40] [seed, default 1]
 * Works in a copy of the tree in the temporary folder. A mutant is killed where a test fails or does not end. Takes what the tests take for each that lives,
 * half a minute in the largest rooms. Some that live are no faults: what is only quicker, or the same written otherwise.
 */
import { spawn } from 'node:child_process';
import {
  cpSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { randomFrom } from './random-tees.js';

const [, , room = 'core/strength', mutants = '40', seed = '1'] = process.argv;
const [packageName, folder] = room.split('/');
/** Many times what the tests take. */
const longest = 300_000;

const root = fileURLToPath(new URL('..', import.meta.url));
const copy = mkdtempSync(join(realpathSync(tmpdir()), 'lumenfront-mutants-'));
/** The tests that are being run: a group of processes. */
let running;
const end = () => running !== undefined && process.kill(-running, 'SIGKILL');
process.on('exit', () => {
  end();
  rmSync(copy, { recursive: true, force: true });
});
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => process.exit(1));
const shared = join('node_modules', '.pnpm');
cpSync(root, copy, {
  recursive: true,
  verbatimSymlinks: true,
  filter: (path) => !['.git', shared].includes(relative(root, path)),
});
symlinkSync(join(root, shared), join(copy, shared));
// What is built stays as it is.
writeFileSync(join(copy, 'test/fixtures/build-first.ts'), 'export default () => {};\n');

const others = {
  ...{ '+': '-', '-': '+', '*': '/', '/': '*', '<': '<=', '<=': '<', '>': '>=', '>=': '>', '===': '!==', '!==': '===' },
  ...{ '&&': '||', '||': '&&', '??': '&&', '+=': '-=', '-=': '+=', '*=': '/=', '/=': '*=' },
};

/** What stands in place of a node in a mutant, if anything. */
function fault(node, tree) {
  if (ts.isPrefixUnaryExpression(node) && node.operator === ts.SyntaxKind.ExclamationToken)
    return node.operand.getText(tree);
  if (ts.isPrefixUnaryExpression(node) && node.operator === ts.SyntaxKind.MinusToken)
    return `(${node.operand.getText(tree)})`;
  if (ts.isNumericLiteral(node)) {
    const value = Number(node.text);
    return String(Number.isInteger(value) ? value + 1 : 2 * value);
  }
  if (node.kind === ts.SyntaxKind.TrueKeyword) return 'false';
  if (node.kind === ts.SyntaxKind.FalseKeyword) return 'true';
  if (ts.isReturnStatement(node) && node.expression) return 'return undefined;';
  if (ts.isExpressionStatement(node)) return ';';
  const { parent } = node;
  if (parent && ts.isBinaryExpression(parent) && node === parent.operatorToken) return others[node.getText(tree)];
  return undefined;
}

/** Every fault of a file. */
function faultsOf(file) {
  const text = readFileSync(file, 'utf8');
  const tree = ts.createSourceFile(file, text, ts.ScriptTarget.ES2022, true);
  const found = [];
  const walk = (node) => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) return;
    const instead = fault(node, tree);
    const start = node.getStart(tree);
    if (instead !== undefined) found.push({ file, text, start, end: node.getEnd(), instead });
    ts.forEachChild(node, walk);
  };
  walk(tree);
  return found;
}

/** Whether the room's quick tests pass, all within the time. */
function pass() {
  const argv = ['node_modules/vitest/vitest.mjs', 'run', `packages/${room.replace('/', '/src/')}/`];
  const options = ['--tags-filter=!long', '--bail=1', '--maxWorkers=1'];
  // A group of its own, so that a worker that does not end goes with it.
  const child = spawn(process.execPath, [...argv, ...options], { cwd: copy, stdio: 'ignore', detached: true });
  running = child.pid;
  const timer = setTimeout(end, longest);
  return new Promise((resolve) => {
    child.once('close', (status) => {
      clearTimeout(timer);
      running = undefined;
      resolve(status === 0);
    });
  });
}

if (!(await pass())) throw new Error(`the quick tests of ${room} fail without any fault`);
const random = randomFrom(Number(seed));
const built = join(copy, 'packages', packageName, 'dist', folder);
const sites = readdirSync(built, { recursive: true })
  .filter((name) => name.endsWith('.js'))
  .sort()
  .flatMap((name) => faultsOf(join(built, name)));
const drawn = Array.from(
  { length: Math.min(Number(mutants), sites.length) },
  () => sites.splice(random.whole(0, sites.length - 1), 1)[0],
);
console.log(`${room}: ${drawn.length} of ${drawn.length + sites.length} faults, seed ${seed}`);
let killed = 0;
for (const { file, text, start, end, instead } of drawn) {
  writeFileSync(file, text.slice(0, start) + instead + text.slice(end));
  const lives = await pass();
  writeFileSync(file, text);
  if (!lives) killed++;
  const before = text.slice(0, start);
  const line = before.slice(before.lastIndexOf('\n') + 1).trim();
  console.log(
    `${lives ? 'ALIVE ' : 'killed'} ${relative(built, file)}:${before.split('\n').length} ${line} [ ${text.slice(start, end)} -> ${instead} ]`,
  );
}
console.log(`${room}: ${killed} of ${drawn.length} killed, ${((100 * killed) / drawn.length).toFixed(0)} %`);
