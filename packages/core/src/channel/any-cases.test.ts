import fc from 'fast-check';
import { expect, it } from 'vitest';
import { holdsFor, settle } from '../../../../test/fixtures/fuzz.js';
import { preparedTask } from '../../../../test/fixtures/reduced.js';
import { readBrief, readBriefText, resolveBrief, starterBrief } from '../brief/index.js';
import { outlineOf } from '../outline/index.js';
import { createChannelReporter, createTask, wholeRoom } from './index.js';

const { model } = preparedTask(await readBrief(starterBrief));
const { delivery: _, ...data } = (await readBriefText(starterBrief)).data as Record<string, unknown>;

/** Nothing, usual sizes and far too much, of either sign. */
const size = (usual: number) =>
  fc.oneof(
    { weight: 1, arbitrary: fc.constantFrom(0, usual, -usual) },
    { weight: 3, arbitrary: fc.double({ min: -3, max: 1.5, noNaN: true }).map((power) => usual * 10 ** power) },
    { weight: 1, arbitrary: fc.double({ min: -1, max: 1, noNaN: true }).map((power) => -usual * 10 ** power) },
  );
const loads = fc.record({
  pull: fc.record({ force: size(20) }),
  side: fc.record({ force: size(5) }),
  moment: fc.record({ moment: size(200) }),
  cure: fc.record({ deltaT: size(-60).filter((deltaT) => Math.abs(deltaT) <= 1000) }),
  pressure: fc.record({ pressure: size(0.5).map(Math.abs) }),
});
const factors = fc.dictionary(
  fc.constantFrom('pull', 'side', 'moment', 'cure', 'pressure'),
  fc.oneof(fc.constantFrom(0, 1, -1), fc.double({ min: -2, max: 2, noNaN: true })),
  { minKeys: 1, maxKeys: 5 },
);
const strength = fc.oneof(
  fc.constant({}),
  fc.record({ edge: fc.constant('peak'), leastRetained: fc.double({ min: 0.01, max: 0.99, noNaN: true }) }),
  fc.record({ edge: fc.record({ distance: fc.constantFrom(0.05, 0.1), average: fc.boolean() }) }),
);
const ellipse = fc.record({
  y: fc.double({ min: 1.2, max: 2.4, noNaN: true }),
  width: fc.double({ min: 0.6, max: 1.4, noNaN: true }),
  height: fc.double({ min: 0.6, max: 1.4, noNaN: true }),
});

/** A share of a strength, or why there is none. */
function isTold({
  retained,
  reason,
}: {
  readonly retained?: number | undefined;
  readonly reason?: string | undefined;
}): void {
  const told = retained !== undefined && Number.isFinite(retained) && retained > 0;
  expect(reason === undefined, `${retained}, ${reason}`).toBe(told);
}

it('out of any loads and cases comes a share of strength retained, or a word why there is none', async () => {
  let accepted = 0;
  await holdsFor(
    8,
    [loads, fc.array(factors, { minLength: 1, maxLength: 4 }), strength, ellipse],
    async (loads, cases, strength, parameters) => {
      // Refused where nothing acts in a case.
      const brief = await settle(() =>
        resolveBrief({
          ...data,
          ...{ loads, strength },
          cases: Object.fromEntries(cases.map((one, c) => [`case ${c}`, one])),
        }),
      );
      if (brief === undefined) return;
      accepted++;
      const task = createTask(brief, model);
      const outline = outlineOf({ family: 'ellipse', parameters }, wholeRoom(task));
      const evaluated = createChannelReporter(task)(outline);
      const { design } = evaluated;
      for (const { peak, least } of Object.values(design.cases))
        expect([peak, least].every(Number.isFinite)).toBe(true);
      expect(Math.abs(design.change)).toBeLessThan(0.01);
      const summary = evaluated.strengthSummary()!;
      const report = evaluated.strength()!;
      for (const one of [summary, ...Object.values(report.cases)]) {
        isTold(one);
        expect(one.loadFactor).toBeGreaterThanOrEqual(0);
      }
    },
  );
  expect(accepted).toBeGreaterThan(4);
});
