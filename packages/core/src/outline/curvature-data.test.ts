import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.js';
import { curvatureParameters, curvatureUnit } from './curvature-data.js';
import type { OutlineRoom } from './family.js';
import { fitCurvature } from './fit-curvature.js';
import { createCurveNodes } from './nodes.js';
import { outlineOf } from './outline-of.js';

const room: OutlineRoom = { mirror: true, xMin: -3, xMax: 3, yMin: 0.12, yMax: 3.6, edgeRadius: 0.12 };
const ellipse = outlineOf({ family: 'ellipse', parameters: { y: 1.2, width: 2, height: 1 } }, room);
const turned = outlineOf({ family: 'ellipse', parameters: { x: 0.1, y: 1.2, width: 2, height: 1, turn: 9 } }, room);

function numbersOf(curve = ellipse): Record<string, number> {
  const { outline, values } = fitCurvature(curve, 16, 0.12)!;
  return curvatureParameters({ form: outline.form, values });
}

describe('an outline by curvature as named numbers', () => {
  it.each([
    ['mirror-symmetric', ellipse],
    ['free', turned],
  ])('comes back as it was, %s, from a file with 12 digits too', (_, curve) => {
    const numbers = numbersOf(curve);
    const rounded = Object.fromEntries(Object.entries(numbers).map(([k, v]) => [k, Number(v.toPrecision(12))]));
    const [nodes, again, given] = [0, 0, 0].map(() => createCurveNodes(96));
    outlineOf({ family: 'spline', parameters: numbers }, room).place(nodes!);
    const read = outlineOf({ family: 'spline', parameters: rounded }, room);
    read.place(again!);
    curve.place(given!);
    expect(read.mirror).toBe(curve.mirror);
    expect(read.fewestNodes).toBeGreaterThanOrEqual(2.4 * 16);
    for (let j = 0; j < 96; j++)
      expect(Math.hypot(nodes!.x[j]! - again!.x[j]!, nodes!.y[j]! - again!.y[j]!)).toBeLessThan(1e-9);
    expect(Math.max(...nodes!.x)).toBeCloseTo(Math.max(...given!.x), 2);
  });

  it('has a unit for each of its numbers', () => {
    const units = Object.keys(numbersOf(turned)).map((name) => [name.replace(/\d+$/, ''), curvatureUnit(name)]);
    expect(Object.fromEntries(units)).toEqual({
      x: 'mm',
      y: 'mm',
      turn: 'deg',
      length: 'mm',
      curvature: '1/mm',
      knot: '1',
      even: '1',
      odd: '1',
    });
  });

  it('leaves splines of earlier files what they are', () => {
    const waves = Object.fromEntries(Array.from({ length: 11 }, (_, k) => [`wave${k + 1}`, 0]));
    const parameters = { y: 1.2, size: 0.7, stretch: 0, sideWarp: 0, baseWarp: 0, ...waves };
    const nodes = createCurveNodes(64);
    outlineOf({ family: 'spline', parameters }, room).place(nodes);
    for (let j = 0; j < 64; j++) expect(Math.hypot(nodes.x[j]!, nodes.y[j]! - 1.2)).toBeCloseTo(0.7, 12);
  });

  it.each([
    ['a number left out', { curvature3: undefined }, /numbers without gaps/],
    ['no length', { length: undefined }, /parameters\.length: expected a number/],
    ['a negative length', { length: -1 }, /more than 0 mm/],
    ['NaN', { curvature2: Number.NaN }, /parameters\.curvature2: expected a finite number/],
    ['text', { y: 'low' }, /parameters\.y: expected a finite number/],
    ['knots in disorder', { knot2: 0.9 }, /ascend/],
    ['an unknown number', { wave1: 0 }, /parameters\.wave1/],
    ['one that does not close', { length: 0.5 }, /an outline that closes/],
  ])('refuses %s', (_, change, message) => {
    const parameters = { ...numbersOf(), ...change } as Record<string, number>;
    for (const [name, value] of Object.entries(parameters)) if (value === undefined) delete parameters[name];
    const read = () => outlineOf({ family: 'spline', parameters }, room);
    expect(read).toThrow(InputError);
    expect(read).toThrow(message);
  });
});
