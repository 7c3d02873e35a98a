/**
 * The same seed on other engines: `node benchmarks/engines.js NODE [NODE …]`, each the path of another Node. Every engine goes the whole way from a brief to a small
 * front, its largest design checked and delivered; the largest difference of a figure from this Node's is told, and fails beyond 1e-9 of it.
 */
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { channelRoom, outlineOf, readBrief, starterBrief } from '@lumenfront/core';
import { openThread, runCheck, runDelivery, runFront } from '@lumenfront/optimizer';
import { valuesByPath } from './values-by-path.js';

const allowed = 1e-9;
const asked = '--figures';

/** Figures by name. */
async function figures() {
  const brief = await readBrief(starterBrief.replace(/evaluations: \d+/, 'evaluations: 1000'));
  const workplace = openThread();
  const { designs } = await runFront(brief, { workplace });
  const outline = outlineOf(designs.at(-1), channelRoom(brief));
  const check = await runCheck(brief, outline, { mesh: true, workplace });
  const { ratio } = runDelivery(brief, outline, workplace);
  const values = [...valuesByPath({ designs, check, ratio })];
  return Object.fromEntries(values.filter(([, value]) => typeof value === 'number'));
}

function compare(engine, here) {
  const output = execFileSync(engine, [fileURLToPath(import.meta.url), asked], { maxBuffer: 2 ** 28 });
  const { version, there } = JSON.parse(output.toString());
  const [names, others] = [Object.keys(here), Object.keys(there)];
  if (names.join() !== others.join())
    throw new Error(`${version}: ${others.length} figures, here ${names.length}, or others`);
  let [most, where, equal] = [0, '', 0];
  for (const name of names) {
    if (here[name] === there[name]) equal++;
    const difference = Math.abs(here[name] - there[name]) / Math.max(Math.abs(here[name]), Number.MIN_VALUE);
    if (difference > most) [most, where] = [difference, name];
  }
  console.log(
    `${version}: ${equal} of ${names.length} figures equal to the bit; at most ${most.toExponential(1)} off ${where}`,
  );
  if (!(most <= allowed)) process.exitCode = 1;
}

if (process.argv[2] === asked) console.log(JSON.stringify({ version: process.version, there: await figures() }));
else if (process.argv.length < 3) throw new Error('name the path of another Node');
else {
  const here = await figures();
  console.log(`${process.version}: ${Object.keys(here).length} figures`);
  for (const engine of process.argv.slice(2)) compare(engine, here);
}
