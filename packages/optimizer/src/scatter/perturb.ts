import type { Curve, CurveNodes } from '@lumenfront/core';

/** How one made channel differs from the drawn one. */
export interface Deviation {
  /** Along the edge's outward normal, mm: `size` everywhere, then cosine and sine of two, three and four waves around the edge. */
  readonly size: number;
  readonly waves: readonly number[];
  /** mm, mm, degrees about the centroid of the edge. */
  readonly x: number;
  readonly y: number;
  readonly turn: number;
}

/** Waves around the edge that a deviation has: one wave is a shift, and more than four are no fault of form. */
export const waveCounts = [2, 3, 4] as const;

/** The outline as it is made, which may cross itself or leave its room: whoever solves it measures it first. */
export function deviate(outline: Curve, deviation: Deviation): Curve {
  return {
    mirror: false,
    ...(outline.fewestNodes !== undefined && { fewestNodes: outline.fewestNodes }),
    place(nodes) {
      outline.place(nodes);
      deviateNodes(nodes, deviation);
    },
  };
}

/** The same of nodes where they are. */
export function deviateNodes(nodes: CurveNodes, deviation: Deviation): void {
  if (deviation.size !== 0 || deviation.waves.some((wave) => wave !== 0)) offset(nodes, deviation);
  move(nodes, deviation);
}

/**
 * Moves every node along its normal n by d, a function of the arc length. With the tangent t and the turning rate w of the edge
 * n' = w t and t' = -w n; w' comes from differences of fourth order, and enters second derivatives only, by which outlines are measured
 * but not solved.
 */
function offset(nodes: CurveNodes, { size, waves }: Deviation): void {
  const { count, x, y, dx, dy, ddx, ddy } = nodes;
  const h = (2 * Math.PI) / count;
  const speed = new Float64Array(count);
  const rate = new Float64Array(count);
  const turning = new Float64Array(count);
  let length = 0;
  for (let j = 0; j < count; j++) {
    const v = Math.hypot(dx[j]!, dy[j]!);
    speed[j] = v;
    rate[j] = (dx[j]! * ddx[j]! + dy[j]! * ddy[j]!) / v;
    turning[j] = (dx[j]! * ddy[j]! - dy[j]! * ddx[j]!) / (v * v);
    length += v * h;
  }
  const last = count - 1;
  // From the start of the curve, half a step before the first node: a cubic in between, as on all later steps.
  let along = (h * (3 * speed[last]! + 13 * speed[0]!)) / 32 + ((5 * rate[last]! - 11 * rate[0]!) * h * h) / 192;
  const angle = (2 * Math.PI) / length;
  for (let j = 0; j < count; j++) {
    const v = speed[j]!;
    const w = turning[j]!;
    let d = size;
    let byAngle = 0;
    let byAngle2 = 0;
    for (let k = 0; k < waveCounts.length; k++) {
      const waveCount = waveCounts[k]!;
      const c = Math.cos(waveCount * angle * along);
      const s = Math.sin(waveCount * angle * along);
      const value = waves[2 * k]! * c + waves[2 * k + 1]! * s;
      d += value;
      byAngle += waveCount * (waves[2 * k + 1]! * c - waves[2 * k]! * s);
      byAngle2 -= waveCount * waveCount * value;
    }
    const slope = byAngle * angle * v;
    const bend = byAngle2 * (angle * v) ** 2 + byAngle * angle * rate[j]!;
    const at = (step: number) => turning[(j + step + count) % count]!;
    const turningRate = (8 * (at(1) - at(-1)) - (at(2) - at(-2))) / (12 * h);
    const tx = dx[j]! / v;
    const ty = dy[j]! / v;
    // d n, d' n + d w t and d'' n + 2 d' w t + d (w' t - w² n), with the outward normal n = (ty, -tx).
    const along2 = 2 * slope * w + d * turningRate;
    const across2 = bend - d * w * w;
    const next = j === last ? 0 : j + 1;
    along += (h * (v + speed[next]!)) / 2 + ((rate[j]! - rate[next]!) * h * h) / 12;
    x[j]! += d * ty;
    y[j]! -= d * tx;
    dx[j]! += slope * ty + d * w * tx;
    dy[j]! += d * w * ty - slope * tx;
    ddx[j]! += across2 * ty + along2 * tx;
    ddy[j]! += along2 * ty - across2 * tx;
  }
}

/** Turns the nodes about the edge's centroid and shifts them. */
function move(nodes: CurveNodes, { x: shiftX, y: shiftY, turn }: Deviation): void {
  const { count, x, y, dx, dy, ddx, ddy } = nodes;
  let length = 0;
  let centreX = 0;
  let centreY = 0;
  for (let j = 0; j < count; j++) {
    const v = Math.hypot(dx[j]!, dy[j]!);
    length += v;
    centreX += x[j]! * v;
    centreY += y[j]! * v;
  }
  centreX /= length;
  centreY /= length;
  const c = Math.cos((turn * Math.PI) / 180);
  const s = Math.sin((turn * Math.PI) / 180);
  for (const [u, v, ofX, ofY, toX, toY] of [
    [x, y, centreX, centreY, centreX + shiftX, centreY + shiftY],
    [dx, dy, 0, 0, 0, 0],
    [ddx, ddy, 0, 0, 0, 0],
  ] as const) {
    for (let j = 0; j < count; j++) {
      const px = u[j]! - ofX;
      const py = v[j]! - ofY;
      u[j] = toX + c * px - s * py;
      v[j] = toY + s * px + c * py;
    }
  }
}
