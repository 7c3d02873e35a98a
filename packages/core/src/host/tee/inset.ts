import {
  type CurveNodes,
  lift,
  type OutlineFamily,
  type OutlineParameter,
  type OutlineRoom,
  perCount,
  reflect,
  turnAndMove,
} from '../../outline/index.js';
import type { teeFamilyNames } from './kind.js';
import { fillerRadius, inscribedRadius } from './rounded-filler.js';
import type { TeeJoint } from './tee.js';

/** The families of outlines that only a tee's filler has. */
export function teeFamilies(
  bendRadius: number,
): Readonly<Record<(typeof teeFamilyNames)[number], (room: OutlineRoom) => OutlineFamily>> {
  return { inset: (room) => insetFamily(bendRadius, room) };
}

/** The room of outlines that need not keep what a brief asks for. */
export function wholeFiller({ bendRadius: R }: Pick<TeeJoint, 'bendRadius'>, mirror: boolean): OutlineRoom {
  return { mirror, xMin: -R, xMax: R, yMin: 0, yMax: R, edgeRadius: 0, families: teeFamilies(R) };
}

/** With 96 nodes the peak errs by up to 4 %, with 128 by 1.7 %, with 160 by 0.2 % (60 random insets of a filler of 5 mm bend radius). */
const fewestNodes = 160;

/**
 * Insets: the filler's own border moved inwards, with rounded tips.
 *
 * The right half runs over four pieces of constant curvature: base, side tip, bend, half the top tip. Each has its share
 * of the curve parameter, so that speed and turning rate are step functions of it; both steps are smoothed alike by the
 * same logistic function, even and periodic by images. Their quotient, the curvature, then changes monotonically from
 * piece to piece and never exceeds what the pieces have. The tangent's angle is the closed integral of the turning rate,
 * positions follow from it by quadrature. What the smoothing opens in the closure (second order in its width) is taken
 * out of the base.
 */
function insetFamily(bendRadius: number, room: OutlineRoom): OutlineFamily {
  const { mirror } = room;
  const pieces = piecesOf(bendRadius);
  const paths = perCount(createPath);
  const parameters = insetParameters(room, bendRadius);
  const middle = fillerRadius(bendRadius);
  const draw = (values: ArrayLike<number>, first: number, nodes: CurveNodes) => {
    pieces.fit(values[first]!, values[first + 1]!, values[first + 2]!, values[first + 3]!);
    drawRightHalf(pieces, paths(nodes.count), nodes);
    reflect(nodes);
  };
  if (mirror)
    return {
      name: 'inset',
      mirror,
      fewestNodes,
      parameters,
      place(values, nodes) {
        draw(values, 0, nodes);
      },
    };
  return {
    name: 'inset',
    mirror,
    fewestNodes,
    parameters: [
      {
        name: 'x',
        unit: 'mm',
        lower: -middle,
        upper: middle,
        meaning: 'Shift to the right.',
      },
      ...parameters,
      {
        name: 'turn',
        unit: 'deg',
        lower: -20,
        upper: 20,
        meaning: 'Turn about the middle of the largest circle in the filler, counter-clockwise.',
      },
    ],
    place(values, nodes) {
      draw(values, 1, nodes);
      lift(nodes, -middle);
      turnAndMove(nodes, values[5]!, values[0]!, middle);
    },
  };
}

function insetParameters({ yMin, edgeRadius }: OutlineRoom, bendRadius: number): OutlineParameter[] {
  const leastWall = Math.max(0, yMin);
  const mm = (name: string, lower: number, upper: number, meaning: string) => ({
    name,
    unit: 'mm',
    lower,
    upper,
    meaning,
  });
  return [
    mm('sideWall', leastWall, 0.15 * bendRadius, 'Material between the channel and the bends.'),
    mm('baseWall', leastWall, 0.3 * bendRadius, 'Material between the channel and the base.'),
    mm('sideRadius', edgeRadius, 0.2 * bendRadius, 'Radius of the two tips at the base; less where it has no room.'),
    mm('topRadius', edgeRadius, 0.2 * bendRadius, 'Radius of the tip at the top; less where it has no room.'),
  ];
}

/** Shares of half the curve parameter, pi: base, side tip, bend, half the top tip. */
const shares = [0.22, 0.26, 0.34, 0.18].map((share) => share * Math.PI);
/** Where the pieces meet. */
const breaks = [shares[0]!, shares[0]! + shares[1]!, Math.PI - shares[3]!];
/** Width of the smoothed step at each break: sharp tips recede by up to 1 % of the size. */
const widths = [0.0235, 0.0235, 0.0235];
/**
 * A smoothed break moves what follows it along the normal there by `pi^2/6 width^2 (turn' speed - turn speed')` (second
 * order in the width; primes after the break; derived here). The pieces are laid out so that the base, the bend and the
 * top tip's middle end up in their places all the same; the shifts depend on the pieces, hence the passes.
 */
const passes = 3;

/** Speed at the base, and steps of speed and turning rate at the breaks. */
interface Pieces {
  baseSpeed: number;
  baseWall: number;
  readonly speedSteps: Float64Array;
  readonly turnSteps: Float64Array;
  fit(sideWall: number, baseWall: number, sideRadius: number, topRadius: number): void;
}

function piecesOf(bendRadius: number): Pieces {
  const speeds = new Float64Array(4);
  const turns = new Float64Array(4);
  const shifts = new Float64Array(3);
  const pieces: Pieces = {
    baseSpeed: 0,
    baseWall: 0,
    speedSteps: new Float64Array(3),
    turnSteps: new Float64Array(3),
    fit(sideWall, baseWall, sideRadius, topRadius) {
      const most = 0.9 * inscribedRadius(bendRadius, sideWall, baseWall);
      const side = Math.min(sideRadius, most);
      const top = Math.min(topRadius, most);
      const arc = bendRadius + sideWall;
      shifts.fill(0);
      for (let pass = 0; pass < passes; pass++) {
        // Distances from the bend's centre to those of the tips, and where the tips touch the bend, from straight down.
        const toSide = arc + side - shifts[1]!;
        const toTop = arc + top + shifts[2]!;
        const sideContact = Math.acos((bendRadius - baseWall - side - shifts[0]!) / toSide);
        const topContact = Math.asin(bendRadius / toTop);
        speeds[0] = (bendRadius - toSide * Math.sin(sideContact)) / shares[0]!;
        speeds[1] = (side * (Math.PI - sideContact)) / shares[1]!;
        speeds[2] = (arc * (topContact - sideContact)) / shares[2]!;
        speeds[3] = (top * topContact) / shares[3]!;
        turns[1] = (Math.PI - sideContact) / shares[1]!;
        turns[2] = -(topContact - sideContact) / shares[2]!;
        turns[3] = topContact / shares[3]!;
        for (let i = 0; i < 3; i++)
          shifts[i] = ((Math.PI * widths[i]!) ** 2 / 6) * (turns[i + 1]! * speeds[i]! - turns[i]! * speeds[i + 1]!);
      }
      pieces.baseSpeed = speeds[0]!;
      pieces.baseWall = baseWall;
      for (let i = 0; i < 3; i++) {
        pieces.speedSteps[i] = speeds[i + 1]! - speeds[i]!;
        pieces.turnSteps[i] = turns[i + 1]! - turns[i]!;
      }
    },
  };
  return pieces;
}

/**
 * The smoothed unit steps at the three breaks, for rows at equal angles from the bottom to the top: the even, 2 pi-periodic
 * function that is 0 below the break and 1 above it, its first two derivatives and its integral from the bottom.
 */
interface Path {
  readonly count: number;
  /** Rows per node spacing, even; the first node is half a spacing above the bottom. */
  readonly refinement: number;
  /** Angle `v` of every row, from 0 to pi. */
  readonly angle: Float64Array;
  /** `[3 * row + break]` */
  readonly step: Float64Array;
  readonly slope: Float64Array;
  readonly bend: Float64Array;
  readonly integral: Float64Array;
}

/** Rows in a full turn that the smoothed steps need for the quadrature. */
const leastRows = 384;

function createPath(count: number): Path {
  const refinement = 2 * Math.ceil(leastRows / (2 * count));
  const rows = (count * refinement) / 2 + 1;
  const angle = Float64Array.from({ length: rows }, (_, row) => (row * Math.PI) / (rows - 1));
  const buffer = () => new Float64Array(3 * rows);
  const path: Path = { count, refinement, angle, step: buffer(), slope: buffer(), bend: buffer(), integral: buffer() };
  for (let row = 0; row < rows; row++)
    for (let i = 0; i < 3; i++) {
      const at = 3 * row + i;
      // The step up at the break, its mirror images down beyond the top and below the bottom, and their images.
      for (const turn of [-1, 0, 1])
        for (const sign of [1, -1]) {
          const v = (angle[row]! - sign * breaks[i]! - turn * 2 * Math.PI) / widths[i]!;
          const start = (-sign * breaks[i]! - turn * 2 * Math.PI) / widths[i]!;
          const logistic = 1 / (1 + Math.exp(-v));
          const change = (sign * logistic * (1 - logistic)) / widths[i]!;
          path.step[at]! += sign * logistic;
          path.slope[at]! += change;
          path.bend[at]! += (change * (1 - 2 * logistic)) / widths[i]!;
          path.integral[at]! += sign * widths[i]! * (softplus(v) - softplus(start));
        }
      // The images taken so far add up to 0 above and -1 below the break, in steps of 1.
      path.step[at]! += 1;
      path.integral[at]! += angle[row]!;
    }
  return path;
}

function softplus(v: number): number {
  return Math.max(v, 0) + Math.log1p(Math.exp(-Math.abs(v)));
}

/** Integrates the tangent over the right half; sixth order in the rows' spacing. */
function drawRightHalf(pieces: Pieces, path: Path, nodes: CurveNodes): void {
  const { baseSpeed, baseWall, speedSteps, turnSteps } = pieces;
  const { count, x, y, dx, dy, ddx, ddy } = nodes;
  const { refinement, angle, step, slope, bend, integral } = path;
  const rows = angle.length;
  const h = Math.PI / (rows - 1);
  let j = 0;
  let nodeRow = refinement / 2;
  let px = 0;
  let py = baseWall;
  let ux = 0;
  let uy = 0;
  let vx = 0;
  let vy = 0;
  let wx = 0;
  let wy = 0;
  for (let row = 0; row < rows; row++) {
    let speed = baseSpeed;
    let speed1 = 0;
    let speed2 = 0;
    let tangent = 0;
    let turn = 0;
    let turn1 = 0;
    for (let i = 0, at = 3 * row; i < 3; i++, at++) {
      speed += speedSteps[i]! * step[at]!;
      speed1 += speedSteps[i]! * slope[at]!;
      speed2 += speedSteps[i]! * bend[at]!;
      tangent += turnSteps[i]! * integral[at]!;
      turn += turnSteps[i]! * step[at]!;
      turn1 += turnSteps[i]! * slope[at]!;
    }
    const c = Math.cos(tangent);
    const s = Math.sin(tangent);
    // Position's derivatives: speed e^(i tangent), differentiated twice.
    const along = speed2 - speed * turn * turn;
    const across = 2 * speed1 * turn + speed * turn1;
    const ux1 = speed * c;
    const uy1 = speed * s;
    const vx1 = speed1 * c - speed * turn * s;
    const vy1 = speed1 * s + speed * turn * c;
    const wx1 = along * c - across * s;
    const wy1 = along * s + across * c;
    if (row > 0) {
      // Integral of the quintic through value and two derivatives at both ends.
      px += h * ((ux + ux1) / 2 + h * ((vx - vx1) / 10 + (h * (wx + wx1)) / 120));
      py += h * ((uy + uy1) / 2 + h * ((vy - vy1) / 10 + (h * (wy + wy1)) / 120));
    }
    if (row === nodeRow) {
      x[j] = px;
      y[j] = py;
      dx[j] = ux1;
      dy[j] = uy1;
      ddx[j] = vx1;
      ddy[j] = vy1;
      j++;
      nodeRow += refinement;
    }
    ux = ux1;
    uy = uy1;
    vx = vx1;
    vy = vy1;
    wx = wx1;
    wy = wy1;
  }
  // The top must lie on the mirror line: the rest is taken from the base, which is as long as its share.
  const excess = px / shares[0]!;
  for (let k = 0, row = refinement / 2; k < count / 2; k++, row += refinement) {
    const at = 3 * row;
    x[k]! -= excess * (angle[row]! - integral[at]!);
    dx[k]! -= excess * (1 - step[at]!);
    ddx[k]! += excess * slope[at]!;
  }
}
