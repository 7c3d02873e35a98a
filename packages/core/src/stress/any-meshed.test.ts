import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type AnyOutline, judgesOf, outlinesOf, type Points, points } from '../../../../test/fixtures/any-outline.js';
import { holdsFor, settle } from '../../../../test/fixtures/fuzz.js';
import { readBrief, starterBrief } from '../brief/index.js';
import { createCurveNodes, curveNodesNeeded, fitPoints, outlineOf } from '../outline/index.js';
import { meshedStress } from './index.js';

const plate = await readBrief(`host: { kind: plate }
loads: { farField: { sx: 10, sy: 4 }, pressure: { pressure: 1 } }
channel: { families: [ellipse, teardrop, spline], largest: { width: 8, height: 8 }, edgeRadius: 0.05, mirror: false }
`);
const tee = await readBrief(starterBrief.replace('mirror: true', 'mirror: false'));

it('out of any outline that is meshed comes a finite peak or a complete error', { tags: 'long' }, async () => {
  const hosts = [plate, tee].map((brief) => ({ ...brief, judges: judgesOf(brief) }));
  const given = fc.oneof(
    outlinesOf(hosts.map(({ judges }) => judges)),
    // Most places of a tee's filler: near its middle, of any size.
    fc
      .tuple(points, fc.double({ min: -2, max: 0, noNaN: true }))
      .map(([all, power]) => all.map(([x, y]): Points[number] => [10 ** power * x, 1.25 + 10 ** power * y])),
  );
  await holdsFor(40, [given, fc.nat(1)], async (outline, host) => {
    const isOfFamily = (one: typeof outline): one is AnyOutline => 'family' in one;
    const { joint, loads, cases } = isOfFamily(outline)
      ? hosts.find(({ judges }) => judges === outline.host)!
      : hosts[host]!;
    await settle(() => {
      const curve = isOfFamily(outline)
        ? outlineOf(
            {
              family: outline.family.name,
              parameters: Object.fromEntries(
                outline.family.parameters.map(({ name }, i) => [name, outline.values[i]!]),
              ),
            },
            outline.host.room,
          )
        : fitPoints(outline);
      const nodes = createCurveNodes(Math.max(256, curveNodesNeeded(curve)));
      curve.place(nodes);
      const { loads: peaks, error } = meshedStress(joint, loads, cases, nodes, { coarseness: 4 });
      for (const { peak, least } of Object.values(peaks)) expect([peak, least].every(Number.isFinite)).toBe(true);
      expect(error).not.toBeNaN();
    });
  });
});
