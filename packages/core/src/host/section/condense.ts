import { type Factor, factorize } from '../../linear/index.js';
import {
  assembleBody,
  elementDofs,
  elementOrder,
  numberUnknowns,
  stressRows,
  tangentAngle,
  triangleOrder,
  triangleStress,
  turnedTriangle,
} from '../../mesh/quad/index.js';
import {
  interfacePoints,
  outsideBody,
  type PointShare,
  type Recoverable,
  type RecoverableHost,
  type Recovery,
} from '../condensed/index.js';
import type { SectionPoint } from '../place.js';
import { bentSide } from './bent-side.js';
import type { SectionBody } from './body.js';
import type { ControlContour } from './contour.js';
import { type HostMesh, meshHost } from './host-mesh.js';
import { forcesOn, frameOf, type Held, type Hold, heldBy, looseMotions, pinsFor } from './supports.js';

/** Scalars of the condensed section: the uniform strains, then the user's loads by this name. */
export const scalarOf = (load: string): string => `load ${load}`;

/** A section condensed onto its control contour: held under loads (support 0), and free but for its symmetry (support 1). */
export interface CondensedSection {
  readonly host: RecoverableHost;
  readonly rows: readonly (readonly number[])[];
}

const holds = ['loads', 'free'] as const satisfies readonly Hold[];

/**
 * Meshes the section outside its contour once, factors it once, and closes that for both ways of holding it.
 *
 * @throws InputError for a border of the filler that is meshed too coarsely for its curvature
 */
export function condenseSection(section: SectionBody, contour: ControlContour, refinement = 1): CondensedSection {
  const mesh = meshHost(section, contour, refinement);
  const { body } = mesh;
  const turned = turnedTriangle(body);
  if (turned >= 0) {
    const node = body.mesh.triangles!.elements[6 * turned]!;
    throw bentSide(body.mesh.x[node]!, body.mesh.y[node]!);
  }
  const frame = frameOf(section.file);
  const loads = Object.entries(section.joint.loads).map(([, forces]) => forcesOn(body.mesh, mesh.curve, forces));
  const nodesOf = (curve: string) => new Set(mesh.curve(curve).flat());
  const corners = farApart(body.mesh);
  const candidates = corners.flatMap((node) =>
    [0, 1].map((component): Held => ({ node, component: component as 0 | 1 })),
  );
  const held = holds.map((hold) => {
    const own = heldBy(section.joint, hold, nodesOf);
    const loose = looseMotions(body.mesh, own, frame);
    return { own: [...own, ...pinsFor(body.mesh, loose, candidates, frame)] };
  });
  const unknowns = numberUnknowns(body.mesh.x.length, loads.length);
  const scalars = [unknowns.strainZ, unknowns.deltaT, ...loads.map((_, l) => unknowns.load(l))];
  const dofOf = ({ node, component }: Held) => 2 * node + component;
  const onContour = [...mesh.contourNodes].flatMap((node) => [2 * node, 2 * node + 1]);
  const kept = [...new Set(held.flatMap(({ own }) => own.map(dofOf)))].filter((dof) => !onContour.includes(dof));
  const factor = factorize(assembleBody(body, loads), { retained: [...onContour, ...scalars, ...kept] });
  const recovery = recoveryOf(section, mesh);
  const names = ['strainZ', 'deltaT', ...Object.keys(section.joint.loads).map(scalarOf)];
  return {
    host: {
      contour: { x: contour.x, y: contour.y, closed: true },
      supports: held.map(({ own }) => ({
        whole: close(factor, onContour.length, names, new Set(own.map(dofOf))),
      })),
      body: outsideBody(factor, recovery),
    },
    rows: recovery.rows,
  };
}

/** Two corners of the whole that lie far from each other. */
function farApart({ x, y }: { readonly x: Float64Array; readonly y: Float64Array }): [number, number] {
  const from = (node: number) => {
    let far = node;
    let most = 0;
    for (let i = 0; i < x.length; i++) {
      const away = (x[i]! - x[node]!) ** 2 + (y[i]! - y[node]!) ** 2;
      if (away > most * (1 + 1e-9)) [far, most] = [i, away];
    }
    return far;
  };
  const first = from(0);
  return [first, from(first)];
}

/** Holds what supports hold and eliminates all but contour and scalars. */
function close(
  factor: Factor,
  contourSize: number,
  names: readonly string[],
  fixedDofs: ReadonlySet<number>,
): Recoverable {
  const order = factor.retained.length;
  const size = contourSize + names.length;
  const fixed = Array.from(factor.retained.keys()).filter((i) => i >= size && fixedDofs.has(factor.retained[i]!));
  const small = factorize(
    {
      dofCount: order,
      offsets: Int32Array.of(0, order),
      dofs: Int32Array.from({ length: order }, (_, dof) => dof),
      matrices: factor.schur,
      x: Float64Array.of(0),
      y: Float64Array.of(0),
    },
    { retained: Array.from({ length: size }, (_, dof) => dof), fixed },
  );
  return {
    scalars: names,
    matrix: small.schur,
    kept: small.expand,
  };
}

/** Stresses in the middles of elements, and of the sides that the filler shares with others. */
interface SectionRecovery extends Recovery {
  /** One row of points to a surface, and one of the filler's border. */
  readonly rows: readonly (readonly number[])[];
}

/** Least distance between points: at the filler, in radii of its largest circle, and how it grows away from it. */
const closest = 0.08;
const spreading = 0.2;
/** Stands for a surface among points that must be free of others. */
const onBorder = -1;

function recoveryOf(section: SectionBody, hostMesh: HostMesh): SectionRecovery {
  const { body, quadSurface, triangleSurface } = hostMesh;
  const { mesh } = body;
  const points: SectionPoint[] = [];
  const shares: PointShare[][] = [];
  const rows: number[][] = section.file.surfaces.map(() => []);
  const { radius } = section.circle;
  const taken = new Map<string, (readonly [number, number])[]>();
  const isFree = (surface: number, x: number, y: number) => {
    const away = Math.max(0, -section.border.distance(x, y));
    // Distances by powers of two, so that neighbours compare in the same squares.
    const apart = closest * radius * 2 ** Math.floor(Math.log2(1 + (spreading / closest) * (away / radius)));
    const [i, j] = [Math.floor(x / apart), Math.floor(y / apart)];
    for (let di = -1; di <= 1; di++)
      for (let dj = -1; dj <= 1; dj++)
        for (const [px, py] of taken.get(`${surface} ${apart} ${i + di} ${j + dj}`) ?? [])
          if (Math.hypot(px - x, py - y) < apart) return false;
    const key = `${surface} ${apart} ${i} ${j}`;
    taken.set(key, [...(taken.get(key) ?? []), [x, y]]);
    return true;
  };
  const add = (
    surface: number,
    nodes: Int32Array,
    order: number,
    found: { rows: Float64Array; x: number; y: number },
  ) => {
    const { x, y } = found;
    if (!isFree(surface, x, y)) return;
    const angle = tangentAngle(section.axes[surface]!, x, y);
    rows[surface]!.push(points.length);
    points.push({
      place: surface === section.filler ? 'filler' : 'surface',
      x,
      y,
      normalAngle: angle + Math.PI / 2,
      layer: surface === section.filler ? -1 : surface,
    });
    // Rows are (t, n, tn); points want (n, t, nt).
    const own = new Float64Array(3 * order);
    [1, 0, 2].forEach((row, c) => {
      own.set(found.rows.subarray(row * order, (row + 1) * order), c * order);
    });
    shares.push([{ dofs: elementDofs(nodes, mesh.x.length), rows: own }]);
  };
  for (let e = 0; e < quadSurface.length; e++) {
    const nodes = mesh.elements.subarray(9 * e, 9 * e + 9);
    add(quadSurface[e]!, nodes, elementOrder, {
      rows: stressRows(body, e, 0, 0),
      x: mesh.x[nodes[4]!]!,
      y: mesh.y[nodes[4]!]!,
    });
  }
  for (let e = 0; e < triangleSurface.length; e++)
    add(
      triangleSurface[e]!,
      mesh.triangles!.elements.subarray(6 * e, 6 * e + 6),
      triangleOrder,
      triangleStress(body, e),
    );
  const border: number[] = [];
  for (const { surface, shares: own, ...place } of interfacePoints(hostMesh, section.filler)) {
    if (!isFree(onBorder, place.x, place.y)) continue;
    border.push(points.length);
    points.push({ place: 'filler-interface', ...place, layer: surface });
    shares.push([...own]);
  }
  return {
    points,
    rows: [...rows, border].filter((row) => row.length > 0),
    shares,
  };
}
