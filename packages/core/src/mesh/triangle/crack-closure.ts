import type { ElementMatrices } from '../../linear/index.js';
import { assembleCubic } from './cubic-assemble.js';
import type { CubicMesh } from './cubic-mesh.js';
import { type CutMesh, cutAlong, leftOf } from './cut.js';
import type { Solution } from './solution.js';

/** What a crack sets free as it grows, under every two of the loads, N/mm (kJ/m^2). */
export interface EnergyRelease {
  /** Mode I and mode II: what loads with factors c release is the sum over i, j of `c_i c_j opening[i * count + j]`. */
  readonly opening: Float64Array;
  readonly sliding: Float64Array;
  /** How far the crack's faces come apart behind its tip, per load, mm: below 0 they would run into each other. */
  readonly gap: Float64Array;
}

/** A crack of two lengths. */
export interface GrowingCut {
  /** Four node numbers per side that it grows by. */
  readonly last: Int32Array;
  /** Triangles on the left of the longer one. */
  readonly left: readonly number[];
  readonly short: CutMesh;
  readonly long: CutMesh;
}

/** Cuts a mesh along a chain of sides (as `cutAlong`), and along all but its last ones, `sides` of them. */
export function growingCut(mesh: CubicMesh, chain: Int32Array, sides: number): GrowingCut {
  return {
    last: chain.slice(-4 * sides),
    left: [...leftOf(mesh, chain).triangles],
    short: cutAlong(mesh, chain.subarray(0, -4 * sides)),
    long: cutAlong(mesh, chain),
  };
}

/**
 * Closes the last sides of a crack, which are straight: half of the forces that hold them together while it is short, times how far they come apart when it
 * is long. That is what the elements' energy changes by (Clapeyron), across the crack and along it, as Irwin's closure integral has it (J. Appl.
 * Mech. 24 (1957) 361-364; by finite elements: Rybicki & Kanninen, Eng. Fract. Mech. 9 (1977) 931-938). `short`, `long`: solutions of the
 * same loads on both.
 */
export function energyRelease(cut: GrowingCut, short: readonly Solution[], long: readonly Solution[]): EnergyRelease {
  const { mesh } = cut.short;
  const nodes = [...cut.last].filter((_, at) => at % 4 !== 3);
  const [from, to] = [cut.last[0]!, cut.last.at(-1)!];
  const [dx, dy] = [mesh.x[to]! - mesh.x[from]!, mesh.y[to]! - mesh.y[from]!];
  const length = Math.hypot(dx, dy);
  /** Along the crack, and to its left. */
  const turned = (x: number, y: number) => [(x * dx + y * dy) / length, (y * dx - x * dy) / length] as const;
  const held = forcesOn(cut, nodes, short).map((ofLoad) => ofLoad.map(([x, y]) => turned(x, y)));
  const apart = long.map(({ u }) =>
    nodes.map((node) => {
      const twin = cut.long.twins.get(node)!;
      return turned(u[2 * twin]! - u[2 * node]!, u[2 * twin + 1]! - u[2 * node + 1]!);
    }),
  );
  // What holds a face pulls against how it comes apart.
  const work = (component: 0 | 1) =>
    Float64Array.from(
      held.flatMap((force) =>
        apart.map((way) =>
          nodes.reduce((sum, _, k) => sum - (force[k]![component] * way[k]![component]) / (2 * length), 0),
        ),
      ),
    );
  return { opening: work(1), sliding: work(0), gap: Float64Array.from(apart, ([first]) => first![1]) };
}

/** Forces at nodes of the chain that its right exerts on its left, per solution. */
function forcesOn(
  { short: { mesh }, left }: GrowingCut,
  nodes: readonly number[],
  solutions: readonly Solution[],
): (readonly [number, number])[][] {
  const nodesOf = (triangle: number) => mesh.triangles.subarray(10 * triangle, 10 * triangle + 10);
  const beside = left.filter((triangle) => nodesOf(triangle).some((node) => nodes.includes(node)));
  const { elements, thermalLoad } = assembleCubic({
    ...mesh,
    triangles: Int32Array.from(beside.flatMap((triangle) => [...nodesOf(triangle)])),
    zoneOf: Int32Array.from(beside, (triangle) => mesh.zoneOf[triangle]!),
  });
  return solutions.map(({ u, deltaT }) => {
    const force = timesElements(elements, u);
    const at = (dof: number) => force[dof]! - deltaT * thermalLoad[dof]!;
    return nodes.map((node) => [at(2 * node), at(2 * node + 1)] as const);
  });
}

/** The sum of elements times a vector. */
function timesElements({ offsets, dofs, matrices }: ElementMatrices, u: Float64Array): Float64Array {
  const product = new Float64Array(u.length);
  let matrix = 0;
  for (let e = 0; e + 1 < offsets.length; e++) {
    const own = dofs.subarray(offsets[e]!, offsets[e + 1]!);
    own.forEach((row, i) => {
      for (let j = 0; j <= i; j++) {
        const value = matrices[matrix + own.length * i + j]!;
        product[row]! += value * u[own[j]!]!;
        if (j < i) product[own[j]!]! += value * u[row]!;
      }
    });
    matrix += own.length ** 2;
  }
  return product;
}
