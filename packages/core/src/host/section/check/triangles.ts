import { InputError } from '../../../errors.js';
import { sideKey, tangentAngle } from '../../../mesh/quad/index.js';
import {
  addRing,
  type CubicMesh,
  channelSize,
  createCubicMeshBuilder,
  type EdgeCurve,
  ringLoop,
  type Zone,
} from '../../../mesh/triangle/index.js';
import { type SectionBody, usedCurves } from '../body.js';
import { fillCavity } from '../cavity.js';
import { divide, type Face } from '../division.js';
import { polygonBorder } from '../outline-border.js';

/** Largest side in the filler, in radii of its largest circle, and growth of sides outside. */
const largestInFiller = 0.25;
const growth = 0.35;

/**
 * A section in cubic triangles, with the channel in its filler or without. What is the user's mesh outside a cavity around the channel stays, every
 * element in one or more triangles of its own form; named curves are the sides of their names.
 */
export function sectionTriangles(section: SectionBody, curve: EdgeCurve | undefined, coarseness: number): CubicMesh {
  const { filler, border, circle } = section;
  const division = divide(section.file);
  division.triangulate();
  const builder = createCubicMeshBuilder();
  const corners = new Map<number, number>();
  const corner = (of: number) => {
    let at = corners.get(of);
    if (at === undefined) {
      at = builder.corner(division.x[of]!, division.y[of]!);
      corners.set(of, at);
    }
    return at;
  };
  const largest = (x: number, y: number) =>
    largestInFiller * circle.radius + growth * Math.max(0, -border.distance(x, y));
  let kept: readonly Face[];
  /** Adds the triangles round the channel; sides get their shapes before. */
  let fill = () => {};
  if (curve === undefined) {
    division.refine((x, y) => coarseness * largest(x, y));
    kept = division.faces();
  } else {
    const channel = channelIn(section, curve);
    const size = channelSize(curve, {
      coarseness,
      gap: (x, y) => Math.max(border.distance(x, y), 1e-3 * circle.radius),
      largest,
    });
    division.refine((x, y) => (channel(x, y) < 0 ? Number.POSITIVE_INFINITY : size.at(x, y)));
    const ring = ringLoop(curve, size);
    const least = 3 * size.ring.reduce((most, depth) => Math.max(most, depth), 0);
    const { cavity, filling } = fillCavity({ division, filler, gap: channel, least }, ring, size.at);
    kept = cavity.kept;
    fill = () => {
      const all = cavity.loop.map(corner);
      for (let i = all.length; i < filling.x.length; i++) all.push(builder.corner(filling.x[i]!, filling.y[i]!));
      addRing(builder, { curve, size }, all[cavity.loop.length]!, filler);
      const { triangles } = filling;
      for (let t = 0; t < triangles.length; t += 3)
        builder.triangle(all[triangles[t]!]!, all[triangles[t + 1]!]!, all[triangles[t + 2]!]!, filler);
    };
  }
  const shaped = new Set<number>();
  for (const { corners: own } of kept)
    own.forEach((a, i) => {
      const b = own[(i + 1) % 3]!;
      if (shaped.has(sideKey(a, b))) return;
      shaped.add(sideKey(a, b));
      builder.curve(corner(a), corner(b), (f) => division.along(a, b, f));
    });
  // Sides of the cavity alone: elements on their other side were taken out, or there are none.
  for (const face of division.faces())
    if (division.surfaceOf(face) === filler)
      face.corners.forEach((a, i) => {
        const b = face.corners[(i + 1) % 3]!;
        if (division.beside(a, b).length > 1 || shaped.has(sideKey(a, b))) return;
        shaped.add(sideKey(a, b));
        builder.curve(corner(a), corner(b), (f) => division.along(a, b, f));
      });
  for (const face of kept) {
    const [a, b, c] = face.corners.map(corner) as [number, number, number];
    const middle = (k: 0 | 1) => (face.at[k]! + face.at[2 + k]! + face.at[4 + k]!) / 3;
    builder.triangle(a, b, c, division.surfaceOf(face), division.place(face.element, middle(0), middle(1)));
  }
  fill();
  for (const name of usedCurves(section.joint))
    for (const [a, b] of division.curve(name)) builder.side(sideName(name), corner(a), corner(b));
  return builder.finish(zonesOf(section));
}

/** Under which a named curve's sides stand: a curve may be called as the channel's edge is. */
export const sideName = (curve: string): string => `curve ${curve}`;

function zonesOf({ file, filler, materials, axes }: SectionBody): Zone[] {
  return file.surfaces.map(
    (_, surface): Zone => ({
      place: surface === filler ? 'filler' : 'surface',
      layer: surface === filler ? -1 : surface,
      material: materials[surface]!,
      normal: { angleAt: (x, y) => tangentAngle(axes[surface]!, x, y) + Math.PI / 2 },
    }),
  );
}

/** Points by which the channel's edge is told. */
const points = 512;

/** Distance from the channel's edge, negative inside. Throws InputError for one that does not keep inside the filler. */
function channelIn({ border }: SectionBody, curve: EdgeCurve): (x: number, y: number) => number {
  const point = new Float64Array(5);
  const x: number[] = [];
  const y: number[] = [];
  let wall = Number.POSITIVE_INFINITY;
  for (let k = 0; k < points; k++) {
    curve.at((k / points) * curve.length, point);
    x.push(point[0]!);
    y.push(point[1]!);
    wall = Math.min(wall, border.distance(point[0]!, point[1]!));
  }
  if (!(wall > 0))
    throw new InputError({
      path: 'channel',
      expected: 'a channel inside the filler',
      received: 'one that reaches its border',
      remedy: 'move the channel or make it smaller',
    });
  const edge = polygonBorder({ x, y });
  return (px, py) => -edge.distance(px, py);
}
