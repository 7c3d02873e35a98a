import { InputError } from '../../errors.js';
import { type BorderedLoad, edgeLoad } from '../../mesh/quad/index.js';
import type { CurveForce, SectionJoint } from './joint.js';
import type { MeshFile } from './mesh-file.js';
import { boxOf } from './outline-border.js';
import { tractionOf } from './traction.js';

/** A displacement that is held: of a node, across (0) or up (1). */
export interface Held {
  readonly node: number;
  readonly component: 0 | 1;
}

/** How a section is held: under loads by all of its supports, else by those under 'all' alone. */
export type Hold = 'loads' | 'free';

interface Nodes {
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
}

/** What supports hold, from the nodes of their curves. */
export function heldBy(joint: SectionJoint, hold: Hold, nodesOf: (curve: string) => Iterable<number>): Held[] {
  const held = new Map<number, Held>();
  for (const { curve, hold: directions, under } of joint.supports) {
    if (hold === 'free' && under === 'loads') continue;
    for (const node of nodesOf(curve))
      for (const direction of directions) {
        const component = direction === 'x' ? 0 : 1;
        held.set(2 * node + component, { node, component });
      }
  }
  return [...held.values()];
}

/** A motion of the whole, `(u, v) = (a - c (y - yo), b + c (x - xo))`; lengths in units of the section's. */
export type Motion = readonly [a: number, b: number, c: number];

export interface Frame {
  readonly x: number;
  readonly y: number;
  readonly size: number;
}

export function frameOf(nodes: Nodes): Frame {
  const { xMin, xMax, yMin, yMax } = boxOf(nodes);
  return { x: (xMin + xMax) / 2, y: (yMin + yMax) / 2, size: Math.hypot(xMax - xMin, yMax - yMin) / 2 };
}

/** What a motion of 1 in each of its three parts does to one displacement of a node. */
function row({ x, y }: Nodes, { node, component }: Held, frame: Frame): [number, number, number] {
  return component === 0 ? [1, 0, -(y[node]! - frame.y) / frame.size] : [0, 1, (x[node]! - frame.x) / frame.size];
}

/** Motions that supports leave, orthonormal. */
export function looseMotions(nodes: Nodes, held: readonly Held[], frame: Frame): Motion[] {
  // Gram-Schmidt of what is held, then of the three parts against it.
  const known: number[][] = [];
  const rest = (vector: readonly number[]) => {
    let left = [...vector];
    for (let twice = 0; twice < 2; twice++)
      for (const one of known) {
        const share = one.reduce((sum, value, i) => sum + value * left[i]!, 0);
        left = left.map((value, i) => value - share * one[i]!);
      }
    return { left, size: Math.hypot(...left) };
  };
  const rows = held.map((one) => row(nodes, one, frame));
  for (let k = 0; k < 3; k++) {
    // The row that holds most of what is still loose.
    let best = { left: [0, 0, 0], size: 1e-6 };
    for (const one of rows) {
      const found = rest(one);
      if (found.size > best.size) best = found;
    }
    if (best.size <= 1e-6) break;
    known.push(best.left.map((value) => value / best.size));
  }
  const loose: Motion[] = [];
  while (known.length < 3) {
    const [left, size] = [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ]
      .map((part) => rest(part))
      .reduce<[number[], number]>((most, found) => (found.size > most[1] ? [found.left, found.size] : most), [[], 0]);
    const motion = left.map((value) => value / size) as unknown as Motion;
    loose.push(motion);
    known.push([...motion]);
  }
  return loose;
}

/** Displacements, among those of `candidates`, that hold what is loose and nothing else. */
export function pinsFor(nodes: Nodes, loose: readonly Motion[], candidates: readonly Held[], frame: Frame): Held[] {
  let left = loose.map((motion) => [...motion]);
  const pins: Held[] = [];
  while (left.length > 0) {
    let best = { pin: candidates[0]!, size: -1, shares: [] as number[] };
    for (const pin of candidates) {
      const of = row(nodes, pin, frame);
      const shares = left.map((motion) => motion.reduce((sum, value, i) => sum + value * of[i]!, 0));
      const size = Math.hypot(...shares);
      if (size > best.size * (1 + 1e-9)) best = { pin, size, shares };
    }
    pins.push(best.pin);
    // Of the loose motions those remain that leave the pin where it is.
    const most = best.shares.reduce((at, share, i) => (Math.abs(share) > Math.abs(best.shares[at]!) ? i : at), 0);
    const pivot = left[most]!;
    left = left.flatMap((motion, i) =>
      i === most ? [] : [motion.map((value, k) => value - (best.shares[i]! / best.shares[most]!) * pivot[k]!)],
    );
  }
  return pins;
}

/** Names of loose motions, for messages. */
const motionName = ([a, b, c]: Motion) =>
  Math.abs(c) > 0.5 ? 'turning' : Math.abs(a) > Math.abs(b) ? 'moving along x' : 'moving along y';

/**
 * A load that is not held must balance itself.
 *
 * @param work of the load on a motion, N/mm; `scale`: of the size of its forces
 */
function refuseUnbalanced(
  name: string,
  loose: readonly Motion[],
  work: (motion: Motion) => number,
  scale: number,
): void {
  for (const motion of loose)
    if (Math.abs(work(motion)) > 1e-6 * scale)
      throw new InputError({
        path: `host.loads.${name}`,
        expected: 'a load that the supports hold, or forces that balance each other',
        received: `one that nothing keeps from ${motionName(motion)}`,
        remedy: 'hold more curves under host.supports, or add the force on the other side',
      });
}

/** Force of a load on nodes, `(dof, force)` by turns, as work on a motion. */
function workOn(nodes: Nodes, dofs: readonly number[], force: readonly number[], motion: Motion, frame: Frame): number {
  return dofs.reduce((sum, dof, i) => {
    const of = row(nodes, { node: dof >> 1, component: (dof & 1) as 0 | 1 }, frame);
    return sum + force[i]! * of.reduce((total, value, k) => total + value * motion[k]!, 0);
  }, 0);
}

type Edge = readonly [end: number, middle: number, end: number];

/** A unit of a load as forces on nodes. */
export function forcesOn(
  mesh: { readonly x: Float64Array; readonly y: Float64Array },
  edgesOf: (curve: string) => readonly Edge[],
  forces: readonly CurveForce[],
): BorderedLoad {
  const sum = new Map<number, number>();
  let [x, y] = [0, 0];
  for (const one of forces) {
    const edges = edgesOf(one.curve);
    const traction = tractionOf(one, (field) => {
      const { dofs, force } = edgeLoad(mesh, edges, field);
      const along = (component: number) => force.reduce((sum, f, i) => (dofs[i]! % 2 === component ? sum + f : sum), 0);
      return [along(0), along(1)];
    });
    const load = edgeLoad(mesh, edges, traction);
    load.dofs.forEach((dof, i) => {
      sum.set(dof, (sum.get(dof) ?? 0) + load.force[i]!);
    });
    [x, y] = [load.x, load.y];
  }
  return { dofs: [...sum.keys()], force: [...sum.values()], x, y };
}

/** Throws InputError for loads that supports do not hold. */
export function refuseLoose(joint: SectionJoint, file: Pick<MeshFile, 'x' | 'y' | 'curves'>): void {
  const edgesOf = (curve: string) => {
    const nodes = file.curves.get(curve)!;
    return Array.from(
      { length: nodes.length / 3 },
      (_, i): Edge => [nodes[3 * i]!, nodes[3 * i + 2]!, nodes[3 * i + 1]!],
    );
  };
  const frame = frameOf(file);
  const held = heldBy(joint, 'loads', (curve) => new Set(edgesOf(curve).flat()));
  const loose = looseMotions(file, held, frame);
  for (const [name, forces] of Object.entries(joint.loads)) {
    const { dofs, force } = forcesOn(file, edgesOf, forces);
    const scale = force.reduce((sum, value) => sum + Math.abs(value), 0);
    refuseUnbalanced(name, loose, (motion) => workOn(file, dofs, force, motion, frame), scale);
  }
}
