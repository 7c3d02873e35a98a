import { graded, growing, withMiddles } from '../../mesh/quad/index.js';
import { cube } from '../../power.js';

/**
 * The right half of a contour inside the filler as quadratic edges, from the axis at the bottom, counter-clockwise to the axis at
 * the top: `x, y` of 2 * edges + 1 nodes, odd ones mid-side. The pieces end at edge numbers.
 */
export interface ContourPath {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** End of the piece along the base. */
  readonly baseEnd: number;
  /** The point of the tip that looks into the bottom cusp. */
  readonly nose: number;
  readonly sideStart: number;
  readonly sideEnd: number;
}

/**
 * Nodes of the filler's border, right half: `x` along the base from the axis to the cusp, and angles about the bend's
 * centre along the arc from the bottom cusp to the top one. Contour nodes project onto them; beyond the tips' noses, columns
 * of the cusps follow.
 */
export function fillerBorder(R: number, contour: ContourPath, refinement: number) {
  const { x, y } = contour;
  const last = x.length - 1;
  const noseNode = 2 * contour.nose;
  const startNode = 2 * contour.sideStart;
  const endNode = 2 * contour.sideEnd;
  const angleOf = (node: number) => Math.PI + Math.atan2(R - y[node]!, R - x[node]!);
  // Chevron: from the nose 45 degrees to both sides of the direction in which it looks.
  const looks = (angleOf(startNode) - 1.5 * Math.PI) / 2;
  const belowX = x[noseNode]! + y[noseNode]! / Math.tan(Math.PI / 4 - looks);
  const aboveAngle = angleWhereRayMeetsArc(R, x[noseNode]!, y[noseNode]!, looks + Math.PI / 4);
  const topAngle = angleWhereRayMeetsArc(R, 0, y[last]!, Math.PI / 4);

  const bottomLength = R - x[noseNode]!;
  const topLength = R - y[last]!;
  const step = Math.hypot(x[noseNode]! - x[noseNode - 2]!, y[noseNode]! - y[noseNode - 2]!) * 1.5;
  const fractions = (length: number) =>
    withMiddles(
      graded(length, growing(length, step / refinement, Infinity, 0.12 / refinement, (0.05 * R) / refinement), 4),
    ).map((s) => s / length);
  const bottomFractions = fractions(bottomLength);
  const topFractions = fractions(topLength);
  const mix = (a: number, b: number, f: number) => a + f * (b - a);
  // Both sides of a cusp keep abreast of its middle towards the tip, where any lead would turn slivers inside out.
  const abreast = (start: number, length: number, f: number) => length * (1 - f) + (start - length) * cube(1 - f);
  const abreastOnArc = (start: number, length: number, f: number) =>
    Math.asin(abreast(R * Math.sin(start), length, f) / R);

  const base: number[] = [];
  for (let node = 0; node <= 2 * contour.baseEnd; node++) base.push(x[node]!);
  const corner = x[2 * contour.baseEnd]!;
  for (let node = 2 * contour.baseEnd + 1; node <= noseNode; node++)
    base.push(mix(corner, belowX, (node - 2 * contour.baseEnd) / (noseNode - 2 * contour.baseEnd)));
  for (const f of bottomFractions.slice(1)) base.push(R - abreast(R - belowX, bottomLength, f));

  const arc: number[] = [...bottomFractions]
    .reverse()
    .map((f) => 1.5 * Math.PI - abreastOnArc(1.5 * Math.PI - aboveAngle, bottomLength, f));
  for (let node = noseNode + 1; node < startNode; node++)
    arc.push(mix(aboveAngle, angleOf(startNode), (node - noseNode) / (startNode - noseNode)));
  for (let node = startNode; node <= endNode; node++) arc.push(angleOf(node));
  for (let node = endNode + 1; node <= last; node++)
    arc.push(mix(angleOf(endNode), topAngle, (node - endNode) / (last - endNode)));
  for (const f of topFractions.slice(1)) arc.push(Math.PI + abreastOnArc(topAngle - Math.PI, topLength, f));
  return {
    base,
    arc,
    bottomFractions,
    topFractions,
    bottomColumns: (bottomFractions.length - 1) / 2,
    topColumns: (topFractions.length - 1) / 2,
  };
}

/** Angle about (R, R) of the first point of the circle of radius R on a ray from outside it. */
function angleWhereRayMeetsArc(R: number, x: number, y: number, direction: number): number {
  const dx = Math.cos(direction);
  const dy = Math.sin(direction);
  const along = (R - x) * dx + (R - y) * dy;
  const away = (R - x) ** 2 + (R - y) ** 2 - R * R;
  const s = along - Math.sqrt(along * along - away);
  const angle = Math.atan2(y + s * dy - R, x + s * dx - R);
  return angle < 0 ? angle + 2 * Math.PI : angle;
}
