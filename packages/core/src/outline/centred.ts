import type { OutlineFamily } from './family.js';
import { centroidRates } from './measure-rates.js';
import type { CurveRates, NodeRates } from './node-rates.js';
import { type CurveNodes, createCurveNodes } from './nodes.js';
import { perCount } from './table.js';

/** Nodes at which a centroid is known to rounding. */
const manyNodes = 256;

/**
 * A family whose `x` is the place of the outline's centroid, between `least` and `most`, mm, wherever the middle lies from which it draws its outlines. Files hold
 * that middle: see `OutlineFamily.files`. A family without `x` comes back as it is.
 */
export function centredFamily(family: OutlineFamily, [least, most]: readonly [number, number]): OutlineFamily {
  const at = family.parameters.findIndex(({ name }) => name === 'x');
  if (at < 0) return family;
  const { imitate, rates, place } = family;
  const scratch = perCount(createCurveNodes);
  const own = new Float64Array(family.parameters.length);
  let ofOutlines = new Float64Array(0);
  const fixed = family.parameters[at]!;
  /** Values of the family for ours, into `own`; the nodes hold the outline then. */
  const placeOwn = (values: ArrayLike<number>, nodes: CurveNodes): void => {
    for (let i = 0; i < own.length; i++) own[i] = values[i]!;
    place.call(family, own, nodes);
    const shift = values[at]! - centroidX(nodes);
    own[at] = values[at]! + shift;
    for (let j = 0; j < nodes.count; j++) nodes.x[j]! += shift;
  };
  const moved = (values: ArrayLike<number>, x: number) =>
    Float64Array.from(values, (value, i) => (i === at ? x : value));
  return {
    ...family,
    parameters: family.parameters.map((one) => (one === fixed ? { ...fixed, lower: least, upper: most } : one)),
    place: placeOwn,
    files: {
      write(values) {
        placeOwn(values, scratch(manyNodes));
        return moved(values, own[at]!);
      },
      read(values) {
        const nodes = scratch(manyNodes);
        place.call(family, values, nodes);
        return moved(values, centroidX(nodes));
      },
    },
    ...(rates === undefined
      ? {}
      : {
          rates(values: ArrayLike<number>, nodes: CurveNodes, out: CurveRates) {
            placeOwn(values, scratch(nodes.count));
            rates.call(family, own, nodes, out);
            const { length } = own;
            if (ofOutlines.length < length) ofOutlines = new Float64Array(length);
            centroidRates(nodes, out as NodeRates, length, ofOutlines);
            for (let p = 0; p < length; p++) {
              if (p === at) continue;
              for (let j = 0, row = p * nodes.count; j < nodes.count; j++) out.x[row + j]! -= ofOutlines[p]!;
            }
          },
        }),
    ...(imitate === undefined
      ? {}
      : {
          imitate: (nodes: CurveNodes) =>
            moved(imitate.call(family, nodes), Math.min(most, Math.max(least, centroidX(nodes)))),
        }),
  };
}

/** Of an outline, as `measureOutline` sees it. mm */
function centroidX({ count, x, y, dx, dy }: CurveNodes): number {
  let [area2, moment2] = [0, 0];
  for (let j = 0; j < count; j++) {
    const px = x[j]! - x[0]!;
    area2 += px * dy[j]! - (y[j]! - y[0]!) * dx[j]!;
    moment2 += px * px * dy[j]!;
  }
  return x[0]! + moment2 / area2;
}
