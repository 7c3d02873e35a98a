import { readFileSync } from 'node:fs';
import { readBrief } from '@lumenfront/core';
import { openThread, runFront } from '@lumenfront/optimizer';
import { describe, expect, it } from 'vitest';

const text = readFileSync(new URL('pocket.yaml', import.meta.url), 'utf8');

/** The table in the brief's comment. */
const rows = [...text.matchAll(/^# {3}(\w+) +([\d.]+) x ([\d.]+) +([\d.]+) +([\d.]+) /gm)].map(
  ([, load, width, height, up, peak]) => ({ load: load!, size: [width, height, up, peak].map(Number) }),
);

/** Keeps the one reduced model. */
const workplace = openThread();

function briefFor(load: string) {
  return readBrief(
    text
      .replace(/^cases:\n( {2}.*\n)+/m, `cases:\n  one: { ${load}: 1 }\n`)
      .replace('families: [ellipse, spline]', 'families: [ellipse]')
      .replace('evaluations: 8000', 'evaluations: 300'),
  );
}

describe('the example of a pocket in a skin', () => {
  it.each(rows)('has the outline of its table for $load alone', { timeout: 120_000 }, async ({ load, size }) => {
    const { designs } = await runFront(await briefFor(load), { workplace });
    const { width, height, peak, parameters } = designs[0]!;
    // Small searches end beside the best.
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
