import { readFileSync } from 'node:fs';
import { type LoadByItself, readBrief } from '@lumenfront/core';
import { openThread, runEachLoad } from '@lumenfront/optimizer';
import { beforeAll, describe, expect, it } from 'vitest';

const text = readFileSync(new URL('pocket.yaml', import.meta.url), 'utf8');

/** The table in the brief's comment. */
const rows = [...text.matchAll(/^# {3}(\w+) +([\d.]+) x ([\d.]+) +([\d.]+) +([\d.]+) /gm)].map(
  ([, load, width, height, up, peak]) => ({ load: load!, size: [width, height, up, peak].map(Number) }),
);

/** Keeps the one reduced model. */
const workplace = openThread();

/** As `front --each-load` tells it of ellipses; small searches end beside the best. */
let found: ReadonlyMap<string, LoadByItself>;
beforeAll(async () => {
  const brief = await readBrief(
    text.replace('families: [ellipse, spline]', 'families: [ellipse]').replace('evaluations: 8000', 'evaluations: 300'),
  );
  found = new Map((await runEachLoad(brief, { workplace })).map((one) => [one.load, one]));
}, 120_000);

describe('the example of a pocket in a skin', { tags: 'long' }, () => {
  it.each(rows)('has the outline of its table for $load alone', ({ load, size }) => {
    const { width, height, peak, parameters, cases } = found.get(load)!.leastCost!;
    expect(cases).toEqual({ [load]: expect.objectContaining({ peak }) });
    expect(Math.abs(peak / size[3]! - 1)).toBeLessThan(0.03);
    expect(width / height / (size[0]! / size[1]!)).toBeGreaterThan(0.75);
    expect(width / height / (size[0]! / size[1]!)).toBeLessThan(1.3);
    expect(parameters.y).toBeCloseTo(size[2]!, 0);
  });

  it('wants it flat for the cure, tall for an opening, and in between for the others', () => {
    const shape = Object.fromEntries(rows.map(({ load, size }) => [load, size[0]! / size[1]!]));
    expect(shape.cure).toBeGreaterThan(2.5);
    expect(shape.flatwise).toBeLessThan(0.6);
    expect(shape.stretch).toBeGreaterThan(1);
    expect(shape.stretch).toBeLessThan(2.5);
  });
});
