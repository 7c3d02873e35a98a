import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import {
  type ChannelTask,
  curvatureFamily,
  curvatureParameters,
  readBrief,
  scoreSize,
  starterBrief,
  taskFamilies,
} from '@lumenfront/core';
import { randomFrom } from '@lumenfront/optimizer';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { createScoring, openThreads } from './index.js';

let task: ChannelTask;
beforeAll(async () => {
  expect(existsSync(new URL('../../dist/pool/worker.js', import.meta.url)), 'workers run what npm run build made').toBe(
    true,
  );
  const brief = await readBrief(starterBrief);
  task = preparedTask(brief);
});

function vectorsOf(family: number, count: number): Float64Array[] {
  const random = randomFrom(3);
  const { parameters } = taskFamilies(task)[family]!;
  return Array.from({ length: count }, () =>
    Float64Array.from(parameters, ({ lower, upper }) => lower + random.uniform() * (upper - lower)),
  );
}

describe('scoring', () => {
  /** In this thread, in 2 and in 3 workers. */
  let scorings: readonly Awaited<ReturnType<typeof createScoring>>[];
  beforeAll(async () => {
    scorings = await Promise.all([1, 2, 3].map((workers) => createScoring(task, workers)));
  });
  afterAll(() => Promise.all(scorings.map((scoring) => scoring.close())));

  it('gives the same to the last bit in this thread and in 2 and 3 workers, however a batch is split', async () => {
    for (const family of [0, 2])
      for (const count of [1, 7, 40]) {
        const vectors = vectorsOf(family, count);
        const [here, ...others] = await Promise.all(scorings.map(({ evaluator }) => evaluator.score(family, vectors)));
        expect(here).toHaveLength(count);
        expect(here!.every((score) => score.length === scoreSize)).toBe(true);
        for (const other of others) expect(other).toEqual(here);
      }
    expect((await scorings[0]!.evaluator.score(0, vectorsOf(0, 40))).some((score) => score[1]! > 0)).toBe(true);
  });

  it('descends, the same in workers', async () => {
    const [x] = vectorsOf(0, 40).filter((_, k) => k === 3);
    const request = { x: x!, radius: 0.05, slopes: 3, gain: 0, most: 60 };
    const requests = [0.5, 1].map((size) => ({ ...request, goal: { size } }));
    const [here, there] = await Promise.all(
      scorings.slice(0, 2).map(({ evaluator }) => evaluator.descend(0, requests)),
    );
    expect(here).toHaveLength(2);
    expect(there).toEqual(here);
    for (const { evaluations } of here!) expect(evaluations).toBeLessThanOrEqual(60);
  });

  it('reports, strength of the joint and all, the same in workers', { tags: 'long' }, async () => {
    const outlines = [0.5, 0.6, 0.7, 0.8, 1].map((width) => ({
      family: 'ellipse',
      parameters: { y: 2, width, height: 0.8 },
    }));
    const [here, there] = await Promise.all(scorings.slice(0, 2).map(({ report }) => report(outlines)));
    expect(here).toHaveLength(outlines.length);
    for (const { design, strength } of here!) expect([design.peak > 0, strength !== undefined]).toEqual([true, true]);
    expect(there).toEqual(here);
  });

  it('reports beside a search what it finds, and what it does not, the same as after it', {
    tags: 'long',
  }, async () => {
    const y = task.channel.reference.at[1];
    const start = { family: 0, x: Float64Array.of(y, 0.8, 0.8) };
    const how = { pieces: 16, radius: 0.05, slopes: 2, slopesBeyond: 1, most: 200 };
    const request = { start, areas: [0.6, 0.62], beside: [[0.01], []], ...how };
    const others = [{ family: 'ellipse', parameters: { y, width: 0.5, height: 0.8 } }];
    const here = scorings[0]!;
    const scoring = await Promise.all([createScoring(task, 1, { idle: 1 }), createScoring(task, 2, { idle: 0 })]);
    try {
      const [found] = await here.evaluator.refine([request]);
      expect(found!.reached.length).toBeGreaterThan(1);
      const outlines = found!.reached.map(({ design }) => ({
        family: curvatureFamily,
        parameters: curvatureParameters(design),
      }));
      const wanted = await here.report([...others, ...outlines]);
      for (const one of scoring) {
        expect(await one.evaluator.refine([request])).toEqual([found]);
        expect(await one.report([...others, ...outlines])).toEqual(wanted);
      }
    } finally {
      await Promise.all(scoring.map((one) => one.close()));
    }
  });

  it('leaves the vectors to the caller', async () => {
    const vectors = vectorsOf(0, 5);
    const before = vectors.map((vector) => vector.slice());
    await scorings[1]!.evaluator.score(0, vectors);
    expect(vectors).toEqual(before);
  });

  it('gives no scores for no vectors', async () => {
    for (const { evaluator } of scorings) expect(await evaluator.score(0, [])).toEqual([]);
  });

  it('passes on what goes wrong in a worker', async () => {
    for (const { evaluator } of scorings) await expect(evaluator.score(99, [Float64Array.of(1)])).rejects.toThrow();
  });
});

describe('threads', () => {
  it.each([
    ['of a file that is not there', './none.js', /Cannot find module/],
    ['of a file that fails', 'data:text/javascript,throw new Error("no such luck")', /no such luck/],
  ])('%s reject what they are to do with the reason', async (_name, file, reason) => {
    const threads = await openThreads({ workerFile: new URL(file, import.meta.url), workers: 2 });
    await expect(threads.run({})).rejects.toThrow(reason);
    // Whether or not a thread had something to do when it failed.
    await new Promise((resolve) => setTimeout(resolve, 100));
    await expect(threads.run({})).rejects.toThrow();
    await threads.close();
  });

  it('may be closed at any time, while they load as well', { tags: 'long' }, async () => {
    const { status, stderr } = spawnSync(
      process.execPath,
      [
        '--input-type=module',
        '--eval',
        `
        const { openThreads } = await import(${JSON.stringify(new URL('../../dist/pool/index.js', import.meta.url).href)});
        const workerFile = new URL(${JSON.stringify(new URL('../../dist/sweep/worker.js', import.meta.url).href)});
        for (let k = 0; k < 12; k++) {
          const threads = await openThreads({ workerFile, workers: 2 });
          await new Promise((resolve) => setTimeout(resolve, 20 * k));
          await threads.close();
        }
      `,
      ],
      { encoding: 'utf8' },
    );
    expect([status, stderr]).toEqual([0, '']);
  });
});
