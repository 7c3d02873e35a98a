import { describe, expect, it } from 'vitest';
import { placed } from '../../../../test/fixtures/outline-checks.js';
import { InputError } from '../errors.js';
import { createFamily } from './create-family.js';
import type { OutlineData, OutlineRoom } from './family.js';
import { createCurveNodes } from './nodes.js';
import { outlineOf } from './outline-of.js';

const room: OutlineRoom = { mirror: true, xMin: -3, xMax: 3, yMin: 0.12, yMax: 3.6, edgeRadius: 0.12 };

function at64(data: OutlineData, where = room) {
  const curve = outlineOf(data, where);
  const nodes = createCurveNodes(64);
  curve.place(nodes);
  return { mirror: curve.mirror, nodes };
}

describe('outlineOf', () => {
  it('places a family by its named parameters, in any order', () => {
    const { mirror, nodes } = at64({ family: 'ellipse', parameters: { height: 1, y: 1.25, width: 2 } });
    expect(mirror).toBe(true);
    expect(nodes).toEqual(placed(createFamily('ellipse', room), [1.25, 2, 1], 64));
  });

  it('takes an outline with x as a free one and one without as mirror-symmetric, whatever the room', () => {
    const free = { x: 0.2, y: 1.25, width: 2, height: 1, turn: 10 };
    expect(at64({ family: 'ellipse', parameters: free }).mirror).toBe(false);
    expect(
      at64({ family: 'ellipse', parameters: { y: 1.25, width: 2, height: 1 } }, { ...room, mirror: false }).mirror,
    ).toBe(true);
  });

  it('fits points', () => {
    const source = placed(createFamily('ellipse', room), [1.25, 2, 1], 64);
    const points = Array.from(source.x, (x, j): [number, number] => [x, source.y[j]!]);
    const { mirror, nodes } = at64({ points });
    expect(mirror).toBe(true);
    for (let j = 0; j < 64; j++) expect(nodes.x[j]! ** 2 + ((nodes.y[j]! - 1.25) / 0.5) ** 2).toBeCloseTo(1, 4);
  });

  it.each([
    ['an unknown family', { family: 'star', parameters: {} }, /expected one of ellipse/],
    [
      'an unknown parameter',
      { family: 'ellipse', parameters: { y: 1, width: 1, height: 1, depth: 2 } },
      /parameters\.depth: expected a parameter of ellipse/,
    ],
    [
      'a missing parameter',
      { family: 'ellipse', parameters: { y: 1, width: 1 } },
      /parameters\.height: .*received nothing/,
    ],
    [
      'one out of bounds',
      { family: 'ellipse', parameters: { y: 1, width: 9, height: 1 } },
      /parameters\.width: expected 0\.24 to 6 mm, received 9/,
    ],
    ['NaN', { family: 'ellipse', parameters: { y: Number.NaN, width: 1, height: 1 } }, /parameters\.y: .*received NaN/],
    ['text', { family: 'ellipse', parameters: { y: '1' as unknown as number, width: 1, height: 1 } }, /parameters\.y/],
    ['a mapping', { family: 'ellipse', parameters: { y: {} as never, width: 1, height: 1 } }, /\.y: .*received \{\};/],
    ['too few points', { points: [[0, 0]] as [number, number][] }, /at least 32/],
  ])('refuses %s', (_, data: OutlineData, message) => {
    expect(() => outlineOf(data, room)).toThrow(InputError);
    expect(() => outlineOf(data, room)).toThrow(message);
  });

  it('names every problem at once', () => {
    try {
      outlineOf({ family: 'ellipse', parameters: { y: 99, depth: 2 } }, room);
      expect.unreachable();
    } catch (error) {
      expect((error as InputError).problems.map((p) => p.path)).toEqual([
        'parameters.depth',
        'parameters.y',
        'parameters.width',
        'parameters.height',
      ]);
    }
  });

  it('accepts a bound that lost its last digits', () => {
    expect(at64({ family: 'ellipse', parameters: { y: 1, width: 6.000000001, height: 1 } }).mirror).toBe(true);
  });
});
