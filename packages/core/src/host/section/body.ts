import { InputError } from '../../errors.js';
import { gauss3 } from '../../linear/index.js';
import { type SectionStiffness, sectionStiffness } from '../../material/index.js';
import { type MaterialAxes, sideKey } from '../../mesh/quad/index.js';
import type { Border } from '../../outline/index.js';
import type { SectionJoint, SurfaceMaterial } from './joint.js';
import { type MeshFile, MeshFileError } from './mesh-file.js';
import { areaOf, type Box, boxOf, largestCircleIn, polygonBorder } from './outline-border.js';
import { readMesh } from './read-mesh.js';
import { refuseLoose } from './supports.js';
import { type Topology, topologyOf } from './topology.js';

/** A section with its mesh read: what every part of the host looks at. */
export interface SectionBody {
  readonly joint: SectionJoint;
  readonly file: MeshFile;
  readonly topology: Topology;
  /** Number of the filler's surface. */
  readonly filler: number;
  /** One per surface, in the order of the file's. */
  readonly materials: readonly SectionStiffness[];
  readonly axes: readonly MaterialAxes[];
  readonly border: Border;
  readonly box: Box;
  readonly circle: { readonly at: readonly [number, number]; readonly radius: number };
  /** Where three bodies meet (what is outside counts as one), or a border turns: stresses are singular there. */
  readonly tips: readonly (readonly [number, number])[];
  /** Nodes round the filler: ends and middles of its border's sides by turns, counter-clockwise. */
  readonly rim: Int32Array;
}

const known = new WeakMap<SectionJoint, SectionBody>();

/** Reads the mesh of a joint, once. Throws InputError for a mesh that is none, or whose filler cannot hold channels. */
export function readSection(joint: SectionJoint): SectionBody {
  const found = known.get(joint) ?? inFile(joint.mesh.file, () => sectionOf(joint));
  known.set(joint, found);
  return found;
}

/** Gives the faults of a mesh the name of its file. */
export function inFile<T>(file: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof MeshFileError)) throw error;
    const { line, ...fault } = error.fault;
    throw new InputError({ path: 'host.mesh', ...fault, file, ...(line === undefined ? {} : { line }) });
  }
}

function sectionOf(joint: SectionJoint): SectionBody {
  const file = readMesh(joint.mesh.text);
  refuseFolded(file);
  const topology = topologyOf(file);
  const filler = file.surfaces.indexOf(joint.filler);
  const rim = rimOf(file, topology, filler, joint.filler);
  refuseInside(joint, file, topology, filler);
  refuseLoose(joint, file);
  const border = rimPolygon(file, rim);
  const distance = polygonBorder(border);
  const box = boxOf(border);
  const axes = file.surfaces.map((name): MaterialAxes => axesOf(joint.surfaces[name]!, file));
  return {
    joint,
    file,
    topology,
    filler,
    materials: file.surfaces.map((name, k) => {
      const { ply, angle } = joint.surfaces[name]!;
      return sectionStiffness({ ply, angle: k === filler ? 90 : angle });
    }),
    axes,
    border: distance,
    box,
    circle: largestCircleIn(distance, box),
    tips: tipsOf(file, topology),
    rim,
  };
}

/** Refuses elements whose map folds where their stiffness is integrated. In a tip of 0 degrees it may be flat in the very corner. */
function refuseFolded(file: MeshFile): void {
  const { x, y, quads, quadSurface, triangles, triangleSurface } = file;
  const check = (
    nodes: Int32Array,
    surface: number,
    slopes: readonly (readonly [readonly number[], readonly number[]])[],
  ) => {
    for (const [along, across] of slopes) {
      const sum = (D: readonly number[], v: Float64Array) => D.reduce((total, d, i) => total + d * v[nodes[i]!]!, 0);
      if (sum(along, x) * sum(across, y) - sum(along, y) * sum(across, x) > 0) continue;
      const [px, py] = [x[nodes[0]!]!, y[nodes[0]!]!].map((value) => Number(value.toPrecision(5)));
      throw new MeshFileError({
        expected: 'elements that are not folded',
        received: `one of surface ${file.surfaces[surface]} that is, near (${px}, ${py})`,
        remedy: 'mesh more finely where sides are curved, or let the mesher straighten its elements of second order',
      });
    }
  };
  quadSurface.forEach((surface, e) => {
    check(quads.subarray(9 * e, 9 * e + 9), surface, quadSlopes);
  });
  triangleSurface.forEach((surface, e) => {
    check(triangles.subarray(6 * e, 6 * e + 6), surface, triangleSlopes);
  });
}

const line = (s: number) => ({ N: [(s * (s - 1)) / 2, 1 - s * s, (s * (s + 1)) / 2], D: [s - 0.5, -2 * s, s + 0.5] });

/** Slopes of an element's shape functions along its two coordinates, at points of its rule. */
const quadSlopes = gauss3.flatMap(([b]) =>
  gauss3.map(([a]) => {
    const [along, across] = [line(a), line(b)];
    const times = (f: readonly number[], g: readonly number[]) => g.flatMap((row) => f.map((column) => row * column));
    return [times(along.D, across.N), times(along.N, across.D)] as const;
  }),
);
const triangleSlopes = [0.0916, 0.4459].flatMap((a) =>
  [
    [a, a],
    [1 - 2 * a, a],
    [a, 1 - 2 * a],
  ].map(([L2, L3]) => {
    const L1 = 1 - L2! - L3!;
    return [
      [1 - 4 * L1, 4 * L2! - 1, 0, 4 * (L1 - L2!), 4 * L3!, -4 * L3!],
      [1 - 4 * L1, 0, 4 * L3! - 1, -4 * L2!, 4 * L2!, 4 * (L1 - L3!)],
    ] as const;
  }),
);

function rimOf(
  { surfaces, ...file }: MeshFile,
  { sides, surfaceOf: of }: Topology,
  filler: number,
  name: string,
): Int32Array {
  const refuse = (received: string) =>
    new MeshFileError({
      expected: `surface ${name} with one border all round, for channels to lie in`,
      received,
      remedy: 'give the filler a surface of its own, in one piece and without holes: channels are no part of the mesh',
    });
  if (filler < 0) throw refuse(`no such surface among ${surfaces.join(', ')}`);
  const next = new Map<number, readonly [middle: number, end: number]>();
  for (const { a, b, middle, left, right } of sides.values()) {
    const [within, beyond] = [of(left) === filler, right !== -1 && of(right) === filler];
    if (within === beyond) continue;
    const [from, to] = within ? [a, b] : [b, a];
    if (next.has(from)) throw refuse(`a border that touches itself at (${file.x[from]}, ${file.y[from]})`);
    next.set(from, [middle, to]);
  }
  const rim: number[] = [];
  const [start] = next.keys();
  let at = start!;
  do {
    const [middle, end] = next.get(at)!;
    rim.push(at, middle);
    at = end;
  } while (at !== start && rim.length <= 2 * next.size);
  if (rim.length !== 2 * next.size) throw refuse('a surface with holes, or in several pieces');
  return Int32Array.from(rim);
}

/** Supports and forces act outside the filler, whose elements are replaced. */
function refuseInside(joint: SectionJoint, file: MeshFile, { sides, surfaceOf: of }: Topology, filler: number): void {
  for (const name of usedCurves(joint)) {
    const nodes = file.curves.get(name)!;
    for (let i = 0; i < nodes.length; i += 3) {
      const { left, right } = sides.get(sideKey(nodes[i]!, nodes[i + 1]!))!;
      if (of(left) === filler && right !== -1 && of(right) === filler)
        throw new MeshFileError({
          expected: `curve ${name} outside the filler, or on its border`,
          received: 'one inside it',
          remedy: 'hold and load the section elsewhere: channels lie in the filler',
        });
    }
  }
}

/** Names of the curves that supports and loads act on. */
export function usedCurves({ supports, loads }: Pick<SectionJoint, 'supports' | 'loads'>): ReadonlySet<string> {
  return new Set([...supports, ...Object.values(loads).flat()].map(({ curve }) => curve));
}

/** Points along a side of the border by which it is told: a sagitta of a sixtieth of the side's own. */
const perSide = 8;

export function rimPolygon(file: Pick<MeshFile, 'x' | 'y'>, rim: Int32Array): { x: number[]; y: number[] } {
  const x: number[] = [];
  const y: number[] = [];
  for (let k = 0; k < rim.length; k += 2) {
    const [a, m, b] = [rim[k]!, rim[k + 1]!, rim[(k + 2) % rim.length]!];
    for (let i = 0; i < perSide; i++) {
      const s = (2 * i) / perSide - 1;
      const at = (v: Float64Array) => ((s * (s - 1)) / 2) * v[a]! + (1 - s * s) * v[m]! + ((s * (s + 1)) / 2) * v[b]!;
      x.push(at(file.x));
      y.push(at(file.y));
    }
  }
  if (!(areaOf({ x, y }) > 0)) throw new Error('the border of the filler runs the wrong way');
  return { x, y };
}

function axesOf({ tangent }: SurfaceMaterial, file: MeshFile): MaterialAxes {
  if (typeof tangent === 'number') return { kind: 'straight', angle: (tangent * Math.PI) / 180 };
  if ('around' in tangent) return { kind: 'arc', x: tangent.around[0], y: tangent.around[1] };
  return { kind: 'draped', angle: directionAlong(file, file.curves.get(tangent.along)!) };
}

/** Direction of a curve where it is nearest to a point. */
function directionAlong({ x, y }: MeshFile, nodes: Int32Array): (px: number, py: number) => number {
  const pieces: (readonly [number, number, number, number, number, number])[] = [];
  for (let k = 0; k < nodes.length; k += 3) {
    const [a, b, m] = [nodes[k]!, nodes[k + 1]!, nodes[k + 2]!];
    pieces.push([x[a]!, y[a]!, x[m]!, y[m]!, x[b]!, y[b]!]);
  }
  /** The foot on a quadratic piece, by Newton from the foot on its chord. */
  const look = ([ax, ay, mx, my, bx, by]: (typeof pieces)[number], px: number, py: number) => {
    const chord = (bx - ax) ** 2 + (by - ay) ** 2;
    let s = Math.max(-1, Math.min(1, (2 * ((px - ax) * (bx - ax) + (py - ay) * (by - ay))) / chord - 1));
    const at = (a: number, m: number, b: number) => ((s * (s - 1)) / 2) * a + (1 - s * s) * m + ((s * (s + 1)) / 2) * b;
    const slope = (a: number, m: number, b: number) => (s - 0.5) * a - 2 * s * m + (s + 0.5) * b;
    for (let pass = 0; pass < 6; pass++) {
      const [dx, dy] = [at(ax, mx, bx) - px, at(ay, my, by) - py];
      const [tx, ty] = [slope(ax, mx, bx), slope(ay, my, by)];
      const bend = tx * tx + ty * ty + dx * (ax - 2 * mx + bx) + dy * (ay - 2 * my + by);
      const step = (dx * tx + dy * ty) / Math.max(bend, 0.2 * (tx * tx + ty * ty));
      s = Math.max(-1, Math.min(1, s - step));
    }
    return {
      away: Math.hypot(at(ax, mx, bx) - px, at(ay, my, by) - py),
      angle: Math.atan2(slope(ay, my, by), slope(ax, mx, bx)),
    };
  };
  return (px, py) => {
    let best = { away: Number.POSITIVE_INFINITY, angle: 0 };
    for (const piece of pieces) {
      const found = look(piece, px, py);
      // Neighbours meet in a point: the first counts, also where rounding says otherwise.
      if (found.away < best.away * (1 - 1e-9)) best = found;
    }
    return best.angle;
  };
}

/** A border that turns by more than this (radians) has a corner. */
const corner = 0.35;

function tipsOf(file: MeshFile, { sides, surfaceOf: of }: Topology): (readonly [number, number])[] {
  const { x, y } = file;
  /** Sides between different bodies by the nodes at their ends, each with the other end's direction. */
  const meeting = new Map<number, number[]>();
  for (const { a, b, middle, left, right } of sides.values()) {
    if (right !== -1 && of(left) === of(right)) continue;
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      const direction = (v: Float64Array) => 4 * v[middle]! - 3 * v[from]! - v[to]!;
      const list = meeting.get(from) ?? [];
      list.push(Math.atan2(direction(y), direction(x)));
      meeting.set(from, list);
    }
  }
  const tips: (readonly [number, number])[] = [];
  for (const [node, directions] of meeting) {
    const [first, second] = directions as [number, number];
    const straight = Math.abs(Math.abs(Math.atan2(Math.sin(first - second), Math.cos(first - second))) - Math.PI);
    if (directions.length > 2 || straight > corner) tips.push([x[node]!, y[node]!]);
  }
  return tips;
}
