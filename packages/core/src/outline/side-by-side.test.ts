import { expect, it } from 'vitest';
import { ellipseNodes } from '../../../../test/fixtures/tee-reference.js';
import { createCurveNodes } from './nodes.js';
import { copiesOfAll, onRight, placeOnCopy, writeCopy } from './side-by-side.js';

it.each([2, 3, 4, 5, 8])(
  'what stands on the given one of %i channels is found on each copy, symmetric together',
  (number) => {
    const group = { number, pitch: 3 };
    const nodes = ellipseNodes(1, 2, [number % 2 === 1 ? 0 : 1.4, 0.3], 0, 16);
    const copy = createCurveNodes(16);
    for (let k = 0; k < onRight(group); k++) {
      writeCopy(nodes, group, k, copy);
      const placed = Array.from(nodes.x, (x) => placeOnCopy(x, group, k)).sort((a, b) => a - b);
      expect(placed).toEqual(Array.from(copy.x).sort((a, b) => a - b));
      // Between the mirror lines half way to its neighbours.
      const middle = k * 3 + (number % 2 === 1 ? 0 : 1.5);
      for (const x of placed) expect(Math.abs(x - middle)).toBeLessThan(1.5);
    }
    expect(copiesOfAll(group)).toHaveLength(number);
  },
);
