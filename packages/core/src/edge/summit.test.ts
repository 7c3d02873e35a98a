import { describe, expect, it } from 'vitest';
import { nodeParameter } from '../outline/index.js';
import { type AlongEdge, createSummitFinder, interpolated, seenAfter, seenBefore } from './summit.js';

const count = 24;

/** A wave around the edge whose tops lie at `top` node spacings after node 0, and the same with what lies below it left out. */
function wave(top: number, floor = Number.NEGATIVE_INFINITY): { quantity: AlongEdge; values: Float64Array } {
  const values = Float64Array.from({ length: count }, (_, j) => Math.cos(((j - top) * 2 * Math.PI) / count));
  const cut = (value: number) => (value < floor ? Number.NEGATIVE_INFINITY : value);
  return {
    values,
    quantity: {
      atNode: (node) => cut(values[node]!),
      between: (node, weights) => cut(interpolated(values, node, weights)),
    },
  };
}

describe('createSummitFinder', () => {
  const summit = createSummitFinder(count);

  it.each([5, 5.04, 5.3, 5.5, 0.2, -0.2, count - 0.49])('climbs to a top at %d spacings and says where', (top) => {
    const { quantity } = wave(top);
    const node = (Math.round(top) + count) % count;
    expect(summit.climb(quantity, node)).toBeCloseTo(1, 7);
    const parameters = Float64Array.from({ length: count }, (_, j) => Math.sin(nodeParameter(j, count)));
    const place = nodeParameter(0, count) + (top * 2 * Math.PI) / count;
    expect(interpolated(parameters, node, summit.weights)).toBeCloseTo(Math.sin(place), 3);
  });

  it('stays at the best sixth beside places where the quantity has no bound', () => {
    const { quantity } = wave(5.01, 0.9999);
    expect(summit.climb(quantity, 5)).toBeGreaterThan(0.99999);
  });

  it('looks half way to the next node, around the end too', () => {
    const { quantity } = wave(5.5);
    expect(summit.halfway(quantity, 5)).toBeCloseTo(1, 12);
    expect(summit.halfway(wave(count - 0.5).quantity, count - 1)).toBeCloseTo(1, 12);
  });
});

it('a node borders on those beside it, around the end; at the ends of half an edge on its own image', () => {
  const neighbours = (node: number, seen: number) => [seenBefore(node, seen, count), seenAfter(node, seen, count)];
  expect([0, 7, count - 1].map((node) => neighbours(node, count))).toEqual([
    [count - 1, 1],
    [6, 8],
    [count - 2, 0],
  ]);
  expect([0, 7, count / 2 - 1].map((node) => neighbours(node, count / 2))).toEqual([
    [0, 1],
    [6, 8],
    [count / 2 - 2, count / 2 - 1],
  ]);
});
