import { Matrix, solve } from 'ml-matrix';
import type { Circle, CurveNodes } from '../outline/index.js';
import type { Conductance } from './conductance.js';

/**
 * Laminar flow in the ring between an outline and a round fibre (a sensor) in it; `perimeter` counts both. As in
 * `createConductance`, with the fibre's circle as a second contour, run clockwise, and the potential of a line source
 * at its centre besides the double layer, which cannot make one (Mikhlin, Integral Equations, 1957). Its strength `a` is
 * the mean density on the fibre, so that no further unknown is needed (derived here); with `theta` the angle about the
 * fibre,
 *
 *     int w dA = oint |z|^2/16 (x dy - y dx) + oint v dq - a oint q dtheta    over both contours.
 *
 * Needs a gap of at least two node spacings for 0.1 %. Allocates: for reports, not for searches.
 *
 * @throws RangeError if the fibre does not lie inside the outline
 */
export function conductanceAroundFibre(outline: CurveNodes, fibre: Circle): Conductance {
  const ring = ringOf(outline, fibre);
  const { outer, count, x, y, dx, dy, bend, slope } = ring;
  const matrix = new Float64Array(count * count);
  const right = new Float64Array(count);
  const weight = new Float64Array(count);
  const inner = count - outer;

  let [area, perimeter, known, turning] = [0, 0, 0, 0];
  for (let i = 0; i < count; i++) {
    const radius2 = x[i]! ** 2 + y[i]! ** 2;
    const sector = x[i]! * dy[i]! - y[i]! * dx[i]!;
    const fromFibreX = x[i]! - ring.fibreX;
    const fromFibreY = y[i]! - ring.fibreY;
    const distance2 = fromFibreX ** 2 + fromFibreY ** 2;
    area += sector / 2;
    perimeter += Math.hypot(dx[i]!, dy[i]!);
    known += (radius2 * sector) / 16;
    turning += ((radius2 / 4) * (fromFibreX * dy[i]! - fromFibreY * dx[i]!)) / distance2;
    right[i] = radius2 / 2;
    weight[i]! -= ring.slopeRate[i]!;
    matrix[i * count + i] = 1 + bend[i]!;
    const source = Math.log(Math.sqrt(distance2) / fibre.radius);
    for (let j = outer; j < count; j++) matrix[i * count + j]! += (2 * source) / inner;
    for (let j = i + 1; j < count; j++) {
      const ex = x[j]! - x[i]!;
      const ey = y[j]! - y[i]!;
      const inverse = 1 / (ex * ex + ey * ey);
      matrix[i * count + j]! += ((dy[j]! * ex - dx[j]! * ey) * inverse) / Math.PI;
      matrix[j * count + i]! += ((dx[i]! * ey - dy[i]! * ex) * inverse) / Math.PI;
      const fromHere = slope[i]! * (dx[j]! * ex + dy[j]! * ey) * inverse;
      const fromThere = slope[j]! * (dx[i]! * ex + dy[i]! * ey) * inverse;
      // The singularity is taken out within a contour only.
      const own = i < outer === j < outer ? 1 : 0;
      weight[j]! += fromHere + own * fromThere;
      weight[i]! -= fromThere + own * fromHere;
    }
  }
  const density = solve(Matrix.from1DArray(count, count, matrix), Matrix.columnVector(right)).to1DArray();

  let conjugate = 0;
  let strength = 0;
  for (let i = 0; i < count; i++) {
    conjugate -= (density[i]! * weight[i]!) / (2 * Math.PI);
    if (i >= outer) strength += density[i]! / inner;
  }
  const conductance = known + conjugate - strength * turning;
  const hydraulicDiameter = (4 * area) / perimeter;
  return {
    area,
    perimeter,
    hydraulicDiameter,
    conductance,
    poiseuilleNumber: (hydraulicDiameter ** 2 * area) / (2 * conductance),
  };
}

/** Both contours in one list, outline first, about a point near the middle; derivatives times the step of their contour. */
function ringOf(outline: CurveNodes, fibre: Circle) {
  const outer = outline.count;
  const h = (2 * Math.PI) / outer;
  let [middleX, middleY, length, gap] = [0, 0, 0, Number.POSITIVE_INFINITY];
  for (let j = 0; j < outer; j++) {
    middleX += outline.x[j]! / outer;
    middleY += outline.y[j]! / outer;
    length += Math.hypot(outline.dx[j]!, outline.dy[j]!) * h;
    gap = Math.min(gap, Math.hypot(outline.x[j]! - fibre.x, outline.y[j]! - fibre.y) - fibre.radius);
  }
  if (!(fibre.radius > 0 && gap > 0 && turnsAbout(outline, fibre)))
    throw new RangeError(
      `fibre: expected a circle inside the outline, received radius ${fibre.radius} at ${fibre.x}, ${fibre.y}`,
    );

  // As dense on the fibre as on the outline.
  const inner = Math.max(16, Math.ceil((outer * 2 * Math.PI * fibre.radius) / length));
  const count = outer + inner;
  const buffer = () => new Float64Array(count);
  const [x, y, dx, dy, bend, slope, slopeRate] = [buffer(), buffer(), buffer(), buffer(), buffer(), buffer(), buffer()];
  type Pair = readonly [number, number];
  const put = (i: number, [p, q]: Pair, [dp, dq]: Pair, [ddp, ddq]: Pair) => {
    const speed2 = dp * dp + dq * dq;
    x[i] = p;
    y[i] = q;
    dx[i] = dp;
    dy[i] = dq;
    bend[i] = (dp * ddq - dq * ddp) / (2 * Math.PI * speed2);
    slope[i] = (p * dp + q * dq) / 2;
    slopeRate[i] = (speed2 + p * ddp + q * ddq) / 2;
  };
  for (let j = 0; j < outer; j++)
    put(
      j,
      [outline.x[j]! - middleX, outline.y[j]! - middleY],
      [outline.dx[j]! * h, outline.dy[j]! * h],
      [outline.ddx[j]! * h * h, outline.ddy[j]! * h * h],
    );
  const [fibreX, fibreY] = [fibre.x - middleX, fibre.y - middleY];
  const step = (2 * Math.PI) / inner;
  for (let k = 0; k < inner; k++) {
    const c = fibre.radius * Math.cos(k * step);
    const s = -fibre.radius * Math.sin(k * step);
    put(outer + k, [fibreX + c, fibreY + s], [s * step, -c * step], [-c * step * step, -s * step * step]);
  }
  return { outer, count, x, y, dx, dy, bend, slope, slopeRate, fibreX, fibreY };
}

/** Whether the outline turns once about the centre of the fibre. */
function turnsAbout({ count, x, y }: CurveNodes, { x: px, y: py }: Circle): boolean {
  let angle = 0;
  for (let j = 0, i = count - 1; j < count; i = j++) {
    const [ax, ay, bx, by] = [x[i]! - px, y[i]! - py, x[j]! - px, y[j]! - py];
    angle += Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
  }
  return Math.round(angle / (2 * Math.PI)) === 1;
}
