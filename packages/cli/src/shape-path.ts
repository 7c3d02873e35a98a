import type { ShapePath, ShapePoint } from '@lumenfront/core';

/** SVG path data of a closed path; `point` writes a point (y down), `length` a radius. */
export function shapePathData(
  { from, steps }: ShapePath,
  point: (at: ShapePoint) => string,
  length: (mm: number) => number,
): string {
  const parts = steps.map(({ to, arc }) => {
    if (arc === undefined) return `L${point(to)}`;
    const radius = length(arc.radius);
    const large = Math.abs(arc.turn) > Math.PI ? 1 : 0;
    // What turns clockwise in the section does so on the screen, whose angles run that way.
    return `A${radius} ${radius} 0 ${large} ${arc.turn < 0 ? 1 : 0} ${point(to)}`;
  });
  return `M${point(from)}${parts.join('')}Z`;
}
