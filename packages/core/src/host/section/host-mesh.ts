import { type SectionBody as MeshedBody, sideKey } from '../../mesh/quad/index.js';
import type { SectionBody } from './body.js';
import { fillCavity } from './cavity.js';
import type { ControlContour } from './contour.js';
import { type Division, divide } from './division.js';

/** A section meshed outside its control contour. */
export interface HostMesh {
  readonly body: MeshedBody;
  readonly contourNodes: Int32Array;
  /** Quadratic edges (end, middle, end) of a named curve. */
  curve(name: string): readonly (readonly [number, number, number])[];
  /** Surface of each quadrilateral, and of each triangle. */
  readonly quadSurface: Int32Array;
  readonly triangleSurface: Int32Array;
}

/** Wanted sides near the contour in its insets, and their growth with the distance from it. */
const nearest = 1;
const growth = 0.5;
/** Growth inside the ring round the contour. */
const ringGrowth = 0.3;

/**
 * The user's elements, divided where they are coarse beside the contour, and six-node triangles between them and the contour in the
 * filler. `refinement` divides the sizes that are chosen here.
 */
export function meshHost(section: SectionBody, contour: ControlContour, refinement = 1): HostMesh {
  const { file, filler, materials, axes } = section;
  const gap = (x: number, y: number) => -contour.distance(x, y);
  const division = divide(file);
  const wanted = (x: number, y: number) => {
    const away = gap(x, y);
    // What lies inside goes.
    return away < 0 ? Number.POSITIVE_INFINITY : (nearest * contour.inset + growth * away) / refinement;
  };
  division.refine(wanted);
  const inner = {
    x: contour.x.filter((_, i) => i % 2 === 0),
    y: contour.y.filter((_, i) => i % 2 === 0),
  };
  const { cavity, filling } = fillCavity(
    { division, filler, gap, least: 1.2 * contour.inset },
    inner,
    (x, y) => ringSize(inner, x, y) / refinement,
  );
  const nodes = numberNodes(division);
  const loop = cavity.loop.map((corner) => nodes.corner(corner));
  cavity.loop.forEach((a, i) => {
    nodes.middle(a, cavity.loop[(i + 1) % cavity.loop.length]!);
  });
  const onContour = Array.from(contour.x, (x, i) => nodes.add(x, contour.y[i]!));
  const ends = onContour.filter((_, i) => i % 2 === 0);
  ends.forEach((end, i) => {
    nodes.join(end, ends[(i + 1) % ends.length]!, onContour[2 * i + 1]!);
  });
  const quads: number[] = [];
  const quadSurface: number[] = [];
  const triangles: number[] = [];
  const triangleSurface: number[] = [];
  for (const face of cavity.kept) {
    const own = face.corners.map((corner) => nodes.corner(corner));
    const middles = face.corners.map((a, i) => nodes.middle(a, face.corners[(i + 1) % face.corners.length]!));
    if (own.length === 3) {
      triangles.push(...own, ...middles);
      triangleSurface.push(division.surfaceOf(face));
    } else {
      const [a, b, c, d] = own as [number, number, number, number];
      const [ab, bc, cd, da] = middles as [number, number, number, number];
      quads.push(a, ab, b, da, nodes.add(...division.place(face.element, 0, 0)), bc, d, cd, c);
      quadSurface.push(division.surfaceOf(face));
    }
  }
  const known = [...loop, ...ends];
  const all = [...known];
  for (let i = known.length; i < filling.x.length; i++) all.push(nodes.add(filling.x[i]!, filling.y[i]!));
  for (let t = 0; t < filling.triangles.length; t += 3) {
    const own = [0, 1, 2].map((k) => all[filling.triangles[t + k]!]!);
    triangles.push(...own, ...own.map((a, k) => nodes.between(a, own[(k + 1) % 3]!)));
    triangleSurface.push(filler);
  }
  return {
    body: {
      mesh: {
        x: Float64Array.from(nodes.x),
        y: Float64Array.from(nodes.y),
        elements: Int32Array.from(quads),
        material: Int32Array.from(quadSurface),
        axes: quadSurface.map((surface) => axes[surface]!),
        triangles: {
          elements: Int32Array.from(triangles),
          material: Int32Array.from(triangleSurface),
          axes: triangleSurface.map((surface) => axes[surface]!),
        },
      },
      materials,
    },
    contourNodes: Int32Array.from(onContour),
    curve: (name) =>
      division.curve(name).map(([a, b]) => [nodes.corner(a), nodes.middle(a, b), nodes.corner(b)] as const),
    quadSurface: Int32Array.from(quadSurface),
    triangleSurface: Int32Array.from(triangleSurface),
  };
}

/** Sides wanted at a point of the ring: those of the nearest edge of the contour, growing away from it. */
function ringSize({ x, y }: { readonly x: Float64Array; readonly y: Float64Array }, px: number, py: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < x.length; i++) {
    const j = (i + 1) % x.length;
    const away = Math.hypot(px - x[i]!, py - y[i]!);
    least = Math.min(least, Math.hypot(x[j]! - x[i]!, y[j]! - y[i]!) + ringGrowth * away);
  }
  return least;
}

/** Numbers of nodes: corners of a division and middles of its sides as they are met, and further ones. */
function numberNodes(division: Division) {
  const x: number[] = [];
  const y: number[] = [];
  const corners = new Map<number, number>();
  const middles = new Map<number, number>();
  const add = (px: number, py: number) => {
    y.push(py);
    return x.push(px) - 1;
  };
  const corner = (of: number) => {
    let node = corners.get(of);
    if (node === undefined) {
      node = add(division.x[of]!, division.y[of]!);
      corners.set(of, node);
    }
    return node;
  };
  return {
    x,
    y,
    add,
    corner,
    join: (a: number, b: number, middle: number) => {
      middles.set(sideKey(a, b), middle);
    },
    /** Of a side of the division, by its corners. */
    middle(a: number, b: number) {
      const key = sideKey(corner(a), corner(b));
      let node = middles.get(key);
      if (node === undefined) {
        node = add(...division.along(a, b, 0.5));
        middles.set(key, node);
      }
      return node;
    },
    /** Of any side, by its nodes: half way where it is new. */
    between(a: number, b: number) {
      let node = middles.get(sideKey(a, b));
      if (node === undefined) {
        node = add((x[a]! + x[b]!) / 2, (y[a]! + y[b]!) / 2);
        middles.set(sideKey(a, b), node);
      }
      return node;
    },
  };
}
