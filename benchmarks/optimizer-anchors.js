#!/usr/bin/env node
// Quality of the generic methods against the figures in anchors.json.
//
//   node benchmarks/optimizer-anchors.js [--seeds 21] [--problem ZDT1] [--perturbed]
//
// --problem runs one problem of either kind; --perturbed adds ten starts for each least-squares problem. Runs the built package:
// `npm run build` first. Everything is seeded; times are of this machine.

import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { Genetic, hypervolume, minimise, NelderMead, randomFrom } from '../packages/optimizer/dist/index.js';
import { moreGarbowHillstrom } from './problems/more-garbow-hillstrom.js';
import { multiObjective } from './problems/multi-objective.js';

const anchors = JSON.parse(readFileSync(new URL('anchors.json', import.meta.url), 'utf8'));
const { values: options } = parseArgs({
  options: {
    seeds: { type: 'string', default: '21' },
    problem: { type: 'string' },
    perturbed: { type: 'boolean', default: false },
  },
});
const seeds = Number(options.seeds);
if (!(seeds >= 1)) throw new Error(`--seeds: expected at least 1, received ${options.seeds}`);
const chosen = (problems) => problems.filter(({ name }) => options.problem === undefined || name === options.problem);

function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

const row = (...cells) =>
  console.log(cells.map((cell, i) => String(cell)[i ? 'padStart' : 'padEnd'](i ? 10 : 24)).join(''));

function compareFronts(problems) {
  if (problems.length === 0) return;
  console.log(
    `Genetic algorithm, 25,000 evaluations, archive of 100, ${seeds} seeds: hypervolume, as a share of the true front`,
  );
  console.log('where that is known (last three problems: as it is)');
  row('', 'median', 'least', 'most', 'anchor', 'at least', 's/run');
  for (const problem of problems) {
    const anchor = anchors.genetic[problem.name];
    const began = performance.now();
    const volumes = Array.from({ length: seeds }, (_, seed) => {
      const method = new Genetic(problem, randomFrom(seed + 1), { reference: problem.reference });
      const { front } = minimise(method, problem, 25_000);
      const points = front.map(({ objectives }) => objectives);
      return hypervolume(points, problem.reference) / (anchor?.trueFront ?? 1);
    });
    const seconds = (performance.now() - began) / 1000 / seeds;
    const figures = [median(volumes), Math.min(...volumes), Math.max(...volumes)];
    const best = anchor && Math.max(anchor.eta20, anchor.eta15);
    const verdict = best === undefined ? '' : figures[0] >= best ? 'yes' : 'NO';
    row(problem.name, ...figures.map((figure) => figure.toPrecision(6)), best ?? 'none', verdict, seconds.toFixed(2));
  }
}

/** Evaluations until the loose and the tight criterion, `Infinity` where they were not reached. */
function solve({ value, least }, start) {
  const first = value(start);
  const limits = [least + 1e-6 * (1 + Math.abs(first - least)), least + 1e-8 * Math.max(1, Math.abs(least))];
  const reached = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  let evaluations = 0;
  const problem = {
    bounds: { lower: start.map(() => Number.NEGATIVE_INFINITY), upper: start.map(() => Number.POSITIVE_INFINITY) },
    objectives: 1,
    constraints: 0,
    evaluate(x) {
      const found = value(x);
      evaluations++;
      limits.forEach((limit, i) => {
        if (found <= limit) reached[i] = Math.min(reached[i], evaluations);
      });
      return { objectives: [found] };
    },
  };
  minimise(new NelderMead(problem, start), problem, {
    evaluations: 5000,
    rules: [{ reason: () => (reached.every(Number.isFinite) ? 'solved' : undefined) }],
  });
  return reached;
}

function compareMinima(problems) {
  if (problems.length === 0) return;
  const solvers = ['scipy', 'scipyAdaptive', 'nlopt', 'fmin', 'wrapperHalf', 'wrapperWhole'];
  const known = (name, solver) => anchors.nelderMead[name][solver].map((count) => count ?? Number.POSITIVE_INFINITY);
  console.log('\nNelder-Mead, evaluations until the loose / the tight criterion');
  const columns = ['ours', ...solvers];
  console.log(''.padEnd(24) + columns.map((name) => name.padStart(15)).join(''));
  const table = problems.map((problem) => {
    const counts = [solve(problem, problem.start), ...solvers.map((solver) => known(problem.name, solver))];
    const cells = counts.map((pair) => pair.map((count) => (Number.isFinite(count) ? count : '-')).join(' / '));
    console.log(problem.name.padEnd(24) + cells.map((cell) => cell.padStart(15)).join(''));
    return counts;
  });
  for (const [label, figure] of [
    ['solved', (counts) => counts.filter(Number.isFinite).length],
    ['median of all', median],
  ]) {
    const cells = columns.map((_, i) =>
      [0, 1].map((kind) => figure(table.map((counts) => counts[i][kind]))).join(' / '),
    );
    console.log(label.padEnd(24) + cells.map((cell) => cell.padStart(15)).join(''));
  }
}

function perturbed(problems) {
  console.log('\nNelder-Mead from ten perturbed starts of each problem: solved tightly');
  for (const [label, start] of [
    ['start (1 ± 0.2)', (value, random) => value * (0.8 + 0.4 * random.uniform())],
    ['start + 0.1 normal', (value, random) => value + 0.1 * Math.max(1, Math.abs(value)) * random.normal()],
    ['start ± 0.5', (value, random) => value + (random.uniform() - 0.5) * Math.max(1, Math.abs(value))],
  ]) {
    const missed = [];
    for (const problem of problems) {
      const random = randomFrom(problem.name);
      for (let k = 0; k < 10; k++) {
        const reached = solve(
          problem,
          problem.start.map((value) => start(value, random)),
        );
        if (!Number.isFinite(reached[1])) missed.push(problem.name);
      }
    }
    console.log(
      `${label.padEnd(24)}${10 * problems.length - missed.length} of ${10 * problems.length}   missed: ${missed.join(', ') || 'none'}`,
    );
  }
}

compareFronts(chosen(multiObjective));
compareMinima(chosen(moreGarbowHillstrom));
if (options.perturbed) perturbed(chosen(moreGarbowHillstrom));
