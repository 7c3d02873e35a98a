import { type Curve, type CurveNodes, nodeParameter } from '@lumenfront/core';

/** Handles around an outline: even, so that of a mirror-symmetric one they lie in pairs. */
export const handleCount = 12;
/** Sharpness of what one handle moves: it reaches about as far as its neighbours. */
const sharpness = 7;

/** Sizes as factors about the middle, a shift and the displacements of the handles, mm: how an outline was changed by hand. */
export interface Deformation {
  readonly width: number;
  readonly height: number;
  readonly right: number;
  readonly up: number;
  /** `(x, y)` of each handle. */
  readonly handles: Float64Array;
}

export const undeformed = (): Deformation => ({
  width: 1,
  height: 1,
  right: 0,
  up: 0,
  handles: new Float64Array(2 * handleCount),
});

/** The handle that is the mirror image of another. */
const mirrorHandle = (k: number): number => handleCount - 1 - k;

/** The same with one handle moved by `(x, y)`; of a mirror-symmetric outline its image too. */
export function withHandle(deformation: Deformation, mirror: boolean, k: number, x: number, y: number): Deformation {
  const handles = deformation.handles.slice();
  const move = (at: number, dx: number) => {
    handles[2 * at]! += dx;
    handles[2 * at + 1]! += y;
  };
  move(k, x);
  if (mirror) move(mirrorHandle(k), -x);
  return { ...deformation, handles };
}

/**
 * An outline changed by hand: stretched about the middle of its box, shifted, and moved at every handle by a smooth periodic bump of the
 * curve parameter, `exp(sharpness (cos - 1))`, with both derivatives in closed form: as smooth as it was before.
 */
export function deform(base: Curve, { width, height, right, up, handles }: Deformation): Curve {
  const [middleX, middleY] = middleOf(base);
  return {
    mirror: base.mirror,
    ...(base.fewestNodes !== undefined && { fewestNodes: base.fewestNodes }),
    place(nodes: CurveNodes) {
      base.place(nodes);
      const { count, x, y, dx, dy, ddx, ddy } = nodes;
      for (let j = 0; j < count; j++) {
        x[j] = middleX + width * (x[j]! - middleX) + right;
        y[j] = middleY + height * (y[j]! - middleY) + up;
        dx[j]! *= width;
        dy[j]! *= height;
        ddx[j]! *= width;
        ddy[j]! *= height;
        for (let k = 0; k < handleCount; k++) {
          const angle = nodeParameter(j, count) - nodeParameter(k, handleCount);
          const [sine, cosine] = [Math.sin(angle), Math.cos(angle)];
          const bump = Math.exp(sharpness * (cosine - 1));
          const slope = -sharpness * sine * bump;
          const bend = sharpness * (sharpness * sine * sine - cosine) * bump;
          const [moveX, moveY] = [handles[2 * k]!, handles[2 * k + 1]!];
          x[j]! += moveX * bump;
          y[j]! += moveY * bump;
          dx[j]! += moveX * slope;
          dy[j]! += moveY * slope;
          ddx[j]! += moveX * bend;
          ddy[j]! += moveY * bend;
        }
      }
    },
  };
}

/** Of a mirror-symmetric outline exactly on the mirror line. */
function middleOf(base: Curve): [x: number, y: number] {
  const places = handlePlaces(base);
  const middle = (values: number[]) => (Math.min(...values) + Math.max(...values)) / 2;
  return [base.mirror ? 0 : middle(places.map(([x]) => x)), middle(places.map(([, y]) => y))];
}

/** Where the handles of an outline are, mm. */
export function handlePlaces(curve: Curve): (readonly [x: number, y: number])[] {
  const buffer = () => new Float64Array(handleCount);
  const nodes = {
    count: handleCount,
    x: buffer(),
    y: buffer(),
    dx: buffer(),
    dy: buffer(),
    ddx: buffer(),
    ddy: buffer(),
  };
  curve.place(nodes);
  return Array.from(nodes.x, (x, k) => [x, nodes.y[k]!] as const);
}
