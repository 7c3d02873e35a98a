/**
 * The ten-node triangle with cubic shape functions on curved sides (isoparametric). Nodes: the three corners
 * counter-clockwise, then two on each side at its thirds (1 to 2, 2 to 3, 3 to 1), then the middle one.
 * Shape functions: Zienkiewicz & Taylor, *The Finite Element Method*, triangular family.
 */

/** Area coordinates of the nodes, `(L1, L2, L3)` one after the other. */
export const nodeCoordinates = Float64Array.of(
  ...[1, 0, 0, 0, 1, 0, 0, 0, 1],
  ...[2 / 3, 1 / 3, 0, 1 / 3, 2 / 3, 0],
  ...[0, 2 / 3, 1 / 3, 0, 1 / 3, 2 / 3],
  ...[1 / 3, 0, 2 / 3, 2 / 3, 0, 1 / 3],
  ...[1 / 3, 1 / 3, 1 / 3],
);

/**
 * Twelve points that integrate polynomials of degree 6 exactly (Dunavant, Int. J. Numer. Meth. Engng 21 (1985)
 * 1129-1148); `weight` sums to 1/2, the area of the reference triangle.
 */
export const quadrature: { readonly L: Float64Array; readonly weight: Float64Array } = (() => {
  const L: number[] = [];
  const weight: number[] = [];
  const add = (w: number, ...point: [number, number, number]) => {
    L.push(...point);
    weight.push(w / 2);
  };
  for (const [w, a, b] of [
    [0.116786275726379, 0.501426509658179, 0.24928674517091],
    [0.050844906370207, 0.873821971016996, 0.063089014491502],
  ] as const) {
    add(w, a, b, b);
    add(w, b, a, b);
    add(w, b, b, a);
  }
  const [w, a, b, c] = [0.082851075618374, 0.053145049844817, 0.310352451033784, 0.636502499121399];
  for (const point of [
    [a, b, c],
    [b, c, a],
    [c, a, b],
    [a, c, b],
    [c, b, a],
    [b, a, c],
  ] as const)
    add(w, ...point);
  return { L: Float64Array.from(L), weight: Float64Array.from(weight) };
})();

/** Shape functions and their derivatives with respect to `L2` and `L3` (`L1 = 1 - L2 - L3`), ten each. */
export interface Shape {
  readonly N: Float64Array;
  readonly dN2: Float64Array;
  readonly dN3: Float64Array;
}

export function createShape(): Shape {
  return { N: new Float64Array(10), dN2: new Float64Array(10), dN3: new Float64Array(10) };
}

const corner = (a: number) => (a * (3 * a - 1) * (3 * a - 2)) / 2;
const cornerSlope = (a: number) => 13.5 * a * a - 9 * a + 1;

/** Evaluates the shape functions at area coordinates `(1 - L2 - L3, L2, L3)`. */
export function evaluateShape(L2: number, L3: number, { N, dN2, dN3 }: Shape): void {
  const L = [1 - L2 - L3, L2, L3] as const;
  for (let i = 0; i < 3; i++) N[i] = corner(L[i]!);
  dN2[0] = dN3[0] = -cornerSlope(L[0]);
  dN2[1] = cornerSlope(L2);
  dN3[1] = 0;
  dN2[2] = 0;
  dN3[2] = cornerSlope(L3);
  for (let side = 0; side < 3; side++) {
    const p = side;
    const q = (side + 1) % 3;
    const a = L[p]!;
    const b = L[q]!;
    const near = 3 + 2 * side;
    N[near] = 4.5 * a * b * (3 * a - 1);
    N[near + 1] = 4.5 * a * b * (3 * b - 1);
    const nearA = 4.5 * b * (6 * a - 1);
    const nearB = 4.5 * a * (3 * a - 1);
    const farA = 4.5 * b * (3 * b - 1);
    const farB = 4.5 * a * (6 * b - 1);
    // dL1 = -1, dL2 = 1 along L2; dL1 = -1, dL3 = 1 along L3.
    const a2 = p === 0 ? -1 : p === 1 ? 1 : 0;
    const b2 = q === 0 ? -1 : q === 1 ? 1 : 0;
    const a3 = p === 0 ? -1 : p === 2 ? 1 : 0;
    const b3 = q === 0 ? -1 : q === 2 ? 1 : 0;
    dN2[near] = nearA * a2 + nearB * b2;
    dN3[near] = nearA * a3 + nearB * b3;
    dN2[near + 1] = farA * a2 + farB * b2;
    dN3[near + 1] = farA * a3 + farB * b3;
  }
  N[9] = 27 * L[0] * L2 * L3;
  dN2[9] = 27 * L3 * (L[0] - L2);
  dN3[9] = 27 * L2 * (L[0] - L3);
}

/** The shape functions at the twelve quadrature points, evaluated once. */
export const quadratureShapes: readonly Shape[] = Array.from(quadrature.weight, (_, q) => {
  const shape = createShape();
  evaluateShape(quadrature.L[3 * q + 1]!, quadrature.L[3 * q + 2]!, shape);
  return shape;
});

/** Cubic shape functions on a side with nodes at 0, 1/3, 2/3, 1 (corner, near, far, corner) and their slopes. */
export function evaluateSide(u: number, N: Float64Array, dN: Float64Array): void {
  const v = 1 - u;
  N[0] = corner(v);
  N[3] = corner(u);
  N[1] = 4.5 * v * u * (3 * v - 1);
  N[2] = 4.5 * v * u * (3 * u - 1);
  dN[0] = -cornerSlope(v);
  dN[3] = cornerSlope(u);
  dN[1] = 4.5 * (v * (3 * v - 1) - u * (6 * v - 1));
  dN[2] = 4.5 * (v * (6 * u - 1) - u * (3 * u - 1));
}
