import type { Layup } from '../../material/index.js';
import { graded, withMiddles } from '../../mesh/quad/index.js';

/**
 * Rows of elements through a layup: positions from the filler outward (with middles), and the layer of each row. They grow with the depth, up to
 * `coarsest` there.
 */
export function layerRows(
  layup: Layup,
  finest: number,
  growth: number,
  coarsest: (depth: number) => number = () => Number.POSITIVE_INFINITY,
) {
  const positions = [0];
  const layers: number[] = [];
  let depth = 0;
  layup.forEach((layer, index) => {
    // Two elements through the layer next to the filler: one biases the stress of channels close to it by 0.3 %.
    const ends = graded(
      layer.thickness,
      (s) => Math.min(finest + growth * (depth + s), coarsest(depth + s)),
      index === 0 ? 2 : 1,
    );
    positions.push(
      ...withMiddles(ends)
        .slice(1)
        .map((s) => depth + s),
    );
    for (let row = 1; row < ends.length; row++) layers.push(index);
    depth += layer.thickness;
  });
  return { positions, layers };
}
