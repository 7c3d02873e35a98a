import { describe, expect, it } from 'vitest';
import { readBrief } from '../brief/index.js';
import { outlineOf } from '../outline/index.js';
import { createChannelReporter } from './reporter.js';
import { supplyLimit, withSupply } from './supply-limit.js';
import { reduceJoint } from './task.js';

const plate = await readBrief(`host: { kind: plate, material: sheet }
materials: { sheet: { E: 70000, nu: 0.3, alpha: 0, transverseTension: 10, interlaminarShear: 60 } }
loads: { farField: { sx: 2 }, pressure: { pressure: 7 } }
cases: { stretched: { farField: 1 }, squeezed: { farField: -1, pressure: 1 }, torn: { farField: 2 } }
`);

function limitOf(
  during: number | { readonly name: string; readonly factors: Readonly<Record<string, number>> },
  width = 1,
  height = 1,
) {
  const acting = typeof during === 'number' ? plate.cases[during]! : during;
  const brief = withSupply(plate, acting);
  const model = reduceJoint(brief.joint, brief.channel);
  const room = { mirror: true, xMin: -5, xMax: 5, yMin: -5, yMax: 5, edgeRadius: 0 };
  const outline = outlineOf({ family: 'ellipse', parameters: { y: 0, width, height } }, room);
  return supplyLimit(createChannelReporter({ ...brief, model })(outline).design, brief.allow);
}

describe('supplyLimit', () => {
  it('is 1 MPa of tension per MPa in a circle (Lame), and 2 a / b - 1 at the tip of an ellipse (Inglis 1913)', () => {
    expect(limitOf({ name: 'no load', factors: {} }).stressPerPressure).toBeCloseTo(1, 8);
    expect(limitOf({ name: 'no load', factors: {} }, 4, 1).stressPerPressure / (2 * 4 - 1)).toBeCloseTo(1, 4);
  });

  it('leaves of the allowed 10 MPa what the case that acts does not take: 3 times 2 MPa at a circle (Kirsch 1898)', () => {
    expect(limitOf({ name: 'no load', factors: {} }).allowedStress).toBe(10);
    expect(limitOf(0).allowedStress).toBeCloseTo(4, 6);
  });

  it('leaves a pressure of the case out, as the supply takes its place', () => {
    // -1 times Kirsch: the largest tension is 2 MPa, at the sides.
    expect(limitOf(1).allowedStress).toBeCloseTo(8, 6);
  });

  it('leaves nothing, not less, where the case takes more than is allowed', () => {
    expect(limitOf(2).allowedStress).toBe(0);
  });
});
