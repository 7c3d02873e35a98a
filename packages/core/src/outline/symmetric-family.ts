import type { OutlineFamily, OutlineParameter, OutlineRoom } from './family.js';
import { type CurveRates, reflectRates, turnRates, writeShift, writeTurn } from './node-rates.js';
import type { CurveNodes } from './nodes.js';
import { lift, reflect, turnAndMove } from './placement.js';
import { type AngleTable, angleTable, perCount } from './table.js';

/** A shape that is symmetric about its own axis, drawn about the origin with the axis upright. */
export interface SymmetricShape {
  readonly name: string;
  readonly parameters: readonly OutlineParameter[];
  /**
   * Writes nodes `0 .. count/2 - 1`, the right half, of the shape whose parameters are `values[first]` and those after
   * it; allocates nothing.
   */
  drawRightHalf(values: ArrayLike<number>, first: number, nodes: CurveNodes, table: AngleTable): void;
  /** Writes the rates of the same nodes for these parameters, the first one's in row `row`; allocates nothing. */
  rateRightHalf(values: ArrayLike<number>, first: number, table: AngleTable, out: CurveRates, row: number): void;
}

/** A family of a symmetric shape: upright on `x = 0` in a mirror-symmetric room, else placed and turned freely. */
export function symmetricFamily(shape: SymmetricShape, room: OutlineRoom): OutlineFamily {
  const { name } = shape;
  const { mirror, xMin, xMax, yMin, yMax, edgeRadius } = room;
  const tables = perCount(angleTable);
  const draw = (values: ArrayLike<number>, first: number, nodes: CurveNodes) => {
    shape.drawRightHalf(values, first, nodes, tables(nodes.count));
    reflect(nodes);
  };
  const x = position('x', 'Horizontal position of the middle of the outline.', xMin + edgeRadius, xMax - edgeRadius);
  const y = position('y', 'Height of the middle of the outline.', yMin + edgeRadius, yMax - edgeRadius);
  if (mirror)
    return {
      name,
      mirror,
      parameters: [y, ...shape.parameters],
      place(values, nodes) {
        draw(values, 1, nodes);
        lift(nodes, values[0]!);
      },
      rates(values, { count }, out) {
        shape.rateRightHalf(values, 1, tables(count), out, 1);
        reflectRates(out, 1 + shape.parameters.length, count);
        writeShift(out, 0, count, 0, 1);
      },
    };
  const turn: OutlineParameter = {
    name: 'turn',
    unit: 'deg',
    lower: -90,
    upper: 90,
    meaning: 'Turn of the outline about its middle, counter-clockwise.',
  };
  const turnIndex = 2 + shape.parameters.length;
  return {
    name,
    mirror,
    parameters: [x, y, ...shape.parameters, turn],
    place(values, nodes) {
      draw(values, 2, nodes);
      turnAndMove(nodes, values[turnIndex]!, values[0]!, values[1]!);
    },
    rates(values, nodes, out) {
      const { count } = nodes;
      shape.rateRightHalf(values, 2, tables(count), out, 2);
      reflectRates(out, turnIndex, count);
      turnRates(out, 2, turnIndex, count, values[turnIndex]!);
      writeShift(out, 0, count, 1, 0);
      writeShift(out, 1, count, 0, 1);
      writeTurn(out, turnIndex, nodes, values[0]!, values[1]!);
    },
  };
}

/** A coordinate of an outline, mm. */
export function position(name: 'x' | 'y', meaning: string, lower: number, upper: number): OutlineParameter {
  return { name, unit: 'mm', lower, upper, meaning };
}

/** A size of an outline, mm. */
export function extent(name: 'width' | 'height', lower: number, upper: number, meaning: string): OutlineParameter {
  return { name, unit: 'mm', lower, upper, start: 'small', meaning };
}
