import type { SectionStiffness } from '../../../material/index.js';
import { elementDofs, type PlacedBlock, type SectionMesh, triangleStress } from '../../../mesh/quad/index.js';
import { type InterfacePoint, interfacePoints, type PointShare, turnedRows, whole } from '../../condensed/index.js';
import type { AddPoint } from './recovery.js';
import type { PocketTee } from './site.js';
import { filler, type KnownEdge, type PocketTeeMesh, resin } from './tee-mesh.js';

/** Surfaces of elements, as the filler's border meets them; what else there is touches it nowhere. */
const surfaces = ['filler', 'joint-base', 'joint-arc', 'joint-pocket', 'elsewhere'] as const;
type Surface = (typeof surfaces)[number];
const [ownSurface, elsewhere] = [0, surfaces.length - 1];

/** Least distances between points, mm: along the filler's border, in the filler, in the pocket. */
interface Spacing {
  readonly close: number;
  readonly wide: number;
  readonly inPocket: number;
}

/** Section points of a filler that has triangles: its border, these, those of the pocket if there are any, and the edge of the channel of known outline. */
export function addAroundChannel(
  joint: PocketTee,
  tee: PocketTeeMesh,
  edge: KnownEdge,
  { close, wide, inPocket }: Spacing,
  add: AddPoint,
): void {
  addBorder(joint, tee, close, add);
  addTriangles(tee, filler, { place: 'joint-filler', apart: wide }, add);
  addTriangles(tee, resin, { place: 'filler', apart: inPocket }, add);
  const { nodes, material } = edge;
  const place = material === filler ? 'joint-channel' : 'pocket-channel';
  for (const { at, share } of edgeShares(tee.body.mesh, nodes, tee.body.materials[material]!))
    add.told(place, { place, layer: -1, ...at }, [share]);
}

function addBorder({ bendRadius: R }: PocketTee, tee: PocketTeeMesh, close: number, add: AddPoint): void {
  const { mesh } = tee.body;
  const quadSurface = Int32Array.from(mesh.material, (material) => (material === filler ? ownSurface : elsewhere));
  for (const [part, placed] of Object.entries(tee.parts) as [string, PlacedBlock][]) {
    const run = tee.runs.find((one) => one.part === part);
    const surface: Surface | undefined =
      run?.place === 'skin'
        ? 'joint-base'
        : run?.place === 'bend'
          ? 'joint-arc'
          : run === undefined && mesh.material[placed.first] !== filler
            ? 'joint-pocket'
            : undefined;
    if (surface !== undefined)
      quadSurface.fill(surfaces.indexOf(surface), placed.first, placed.first + placed.columns * placed.rows);
  }
  const { triangles } = mesh;
  const points = interfacePoints(
    {
      body: tee.body,
      quadSurface,
      triangleSurface: triangles!.material.map((material) => (material === filler ? ownSurface : elsewhere)),
    },
    ownSurface,
  );
  const isBase = ({ y }: InterfacePoint) => y < 1e-9 * R;
  const sides = [
    { name: 'base', own: points.filter(isBase), along: ({ x }: InterfacePoint) => x },
    ...([-1, 1] as const).map((side) => ({
      name: side < 0 ? 'left' : 'right',
      own: points.filter((point) => !isBase(point) && side * point.x > 0),
      along: ({ y }: InterfacePoint) => y,
    })),
  ];
  for (const { name, own, along } of sides) {
    let last: InterfacePoint | undefined;
    for (const point of own.sort((p, q) => along(p) - along(q))) {
      if (last !== undefined && Math.hypot(point.x - last.x, point.y - last.y) < close) continue;
      last = point;
      const { surface, shares, ...at } = point;
      const place = surfaces[surface]!;
      add.told(`${name} ${place}`, { place, layer: -1, ...at }, shares);
    }
  }
}

/** The middles of a material's triangles at least `apart`, each a row by itself: they lie in no order. */
function addTriangles(
  { body }: PocketTeeMesh,
  of: number,
  { place, apart }: { readonly place: string; readonly apart: number },
  add: AddPoint,
): void {
  const { elements, material } = body.mesh.triangles!;
  const taken: (readonly [number, number])[] = [];
  material.forEach((its, e) => {
    if (its !== of) return;
    const { rows, x, y } = triangleStress(body, e);
    if (taken.some(([px, py]) => Math.hypot(px - x, py - y) < apart)) return;
    taken.push([x, y]);
    add.told(`triangle ${e}`, { place, layer: -1, x, y, normalAngle: Math.PI / 2 }, [
      { dofs: elementDofs(elements.subarray(6 * e, 6 * e + 6), body.mesh.x.length), rows: turnedRows(rows, 0, whole) },
    ]);
  });
}

interface EdgeShare {
  readonly at: { readonly x: number; readonly y: number; readonly normalAngle: number };
  readonly share: PointShare;
}

/**
 * Stress along a free edge by its own stretch, at the places of each quadratic side where the slope of what it interpolates is best (Barlow, Int. J. Numer. Meth. Eng. 10 (1976) 243-251). Nothing
 * acts on the edge, so that the law of the material, isotropic in the section, leaves the stretch and what strains along the channel.
 */
function edgeShares(mesh: SectionMesh, edge: Int32Array, material: SectionStiffness): EdgeShare[] {
  const { stiffness, thermal } = material;
  const [tt, tn, , tz, , nn, , nz] = stiffness as unknown as [number, number, number, number, ...number[]];
  const ofNormal = tn / nn!;
  const byStretch = tt - ofNormal * tn;
  const byStrainZ = tz - ofNormal * nz!;
  const byDeltaT = ofNormal * thermal[1]! - thermal[0]!;
  const shares: EdgeShare[] = [];
  for (let i = 0; i < edge.length; i += 2) {
    const nodes = [0, 1, 2].map((k) => edge[(i + k) % edge.length]!);
    for (const s of [-1 / Math.sqrt(3), 1 / Math.sqrt(3)]) {
      const N = [(s * (s - 1)) / 2, 1 - s * s, (s * (s + 1)) / 2];
      const D = [s - 0.5, -2 * s, s + 0.5];
      const sum = (of: readonly number[], values: Float64Array) =>
        of.reduce((t, w, k) => t + w * values[nodes[k]!]!, 0);
      const [dx, dy] = [sum(D, mesh.x), sum(D, mesh.y)];
      const squared = dx * dx + dy * dy;
      // Rows of the normal, the tangential and the shear stress over the side's unknowns.
      const rows = new Float64Array(3 * 8);
      D.forEach((d, k) => {
        rows[8 + 2 * k] = (byStretch * d * dx) / squared;
        rows[8 + 2 * k + 1] = (byStretch * d * dy) / squared;
      });
      rows[8 + 6] = byStrainZ;
      rows[8 + 7] = byDeltaT;
      shares.push({
        // The filler lies to the right of the way round.
        at: { x: sum(N, mesh.x), y: sum(N, mesh.y), normalAngle: Math.atan2(dy, dx) - Math.PI / 2 },
        share: { dofs: elementDofs(Int32Array.from(nodes), mesh.x.length), rows },
      });
    }
  }
  return shares;
}
