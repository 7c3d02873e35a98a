import { type Curve, createCurveNodes, fitPoints } from '@lumenfront/core';

/** How one made channel differs from the drawn one. */
export interface Deviation {
  /** Along the edge's outward normal, mm: `size` everywhere, then cosine and sine of two, three and four waves around the edge. */
  readonly size: number;
  readonly waves: readonly number[];
  /** mm, mm, degrees about the centroid. */
  readonly x: number;
  readonly y: number;
  readonly turn: number;
}

/** Waves around the edge that a deviation has: one wave is a shift, and more than four are no fault of form. */
export const waveCounts = [2, 3, 4] as const;

/** Points that carry the deviating outline to its spline. */
const pointCount = 240;

/** The outline as it is made. Throws InputError where the deviation makes it cross itself. */
export function deviate(outline: Curve, deviation: Deviation): Curve {
  const nodes = createCurveNodes(pointCount);
  outline.place(nodes);
  const { x, y, dx, dy } = nodes;
  const speed = Array.from(dx, (value, j) => Math.hypot(value, dy[j]!));
  const length = speed.reduce((sum, value) => sum + value, 0);
  let along = 0;
  let centreX = 0;
  let centreY = 0;
  speed.forEach((value, j) => {
    centreX += (x[j]! * value) / length;
    centreY += (y[j]! * value) / length;
  });
  const c = Math.cos((deviation.turn * Math.PI) / 180);
  const s = Math.sin((deviation.turn * Math.PI) / 180);
  return fitPoints(
    speed.map((value, j) => {
      const angle = (2 * Math.PI * along) / length;
      along += value;
      let offset = deviation.size;
      waveCounts.forEach((count, w) => {
        offset +=
          deviation.waves[2 * w]! * Math.cos(count * angle) + deviation.waves[2 * w + 1]! * Math.sin(count * angle);
      });
      const px = x[j]! + (offset * dy[j]!) / value - centreX;
      const py = y[j]! - (offset * dx[j]!) / value - centreY;
      return [centreX + deviation.x + c * px - s * py, centreY + deviation.y + s * px + c * py];
    }),
  );
}
