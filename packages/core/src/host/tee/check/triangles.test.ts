import { describe, expect, it } from 'vitest';
import { InputError } from '../../../errors.js';
import { layupFromPlies, layupThickness } from '../../../material/index.js';
import {
  assembleCubic,
  type CubicMesh,
  edgeCurve,
  quadrature,
  quadratureShapes,
} from '../../../mesh/triangle/index.js';
import { type CurveNodes, createCurveNodes, nodeParameter } from '../../../outline/index.js';
import type { TeeJoint } from '../tee.js';
import { teeTriangles } from './triangles.js';

const ply = {
  ...{ E1: 126000, E2: 11000, nu12: 0.28, nu23: 0.4, G12: 6600 },
  ...{ alpha1: -1e-6, alpha2: 26e-6, transverseTension: 48, interlaminarShear: 79 },
};

const joint: TeeJoint = {
  kind: 'tee',
  bendRadius: 5,
  overlaminate: layupFromPlies([45, -45, 0, 90, 90, 0, -45, 45], 0.25, ply),
  webHeight: 25,
  footLength: 20,
  skinHalfSpan: 40,
  skin: [{ thickness: 3, angle: 'quasi-isotropic', ply }],
  filler: ply,
  support: 'clamped',
};

/** A superellipse-like closed curve: half axes a and b, turned, its sides flattened by `flat` (0: an ellipse). */
function outline(a: number, b: number, x0: number, y0: number, turn = 0, flat = 0, count = 256): CurveNodes {
  const nodes = createCurveNodes(count);
  for (let j = 0; j < count; j++) {
    const s = nodeParameter(j, count);
    const wave = (k: number, phase: (v: number) => number) => k * phase(k * s);
    const x = a * (Math.cos(s) + flat * Math.cos(3 * s));
    const y = b * (Math.sin(s) - flat * Math.sin(3 * s));
    const dx = -a * (wave(1, Math.sin) + flat * wave(3, Math.sin));
    const dy = b * (wave(1, Math.cos) - flat * wave(3, Math.cos));
    const ddx = -a * (Math.cos(s) + 9 * flat * Math.cos(3 * s));
    const ddy = -b * (Math.sin(s) - 9 * flat * Math.sin(3 * s));
    const [c, t] = [Math.cos(turn), Math.sin(turn)];
    nodes.x[j] = x0 + c * x - t * y;
    nodes.y[j] = y0 + t * x + c * y;
    nodes.dx[j] = c * dx - t * dy;
    nodes.dy[j] = t * dx + c * dy;
    nodes.ddx[j] = c * ddx - t * ddy;
    nodes.ddy[j] = t * ddx + c * ddy;
  }
  return nodes;
}

function areaOf(nodes: CurveNodes): number {
  let sum = 0;
  for (let j = 0; j < nodes.count; j++) sum += nodes.x[j]! * nodes.dy[j]! - nodes.y[j]! * nodes.dx[j]!;
  return (sum * Math.PI) / nodes.count;
}

/** Area per place by the elements' own quadrature. */
function areas(mesh: CubicMesh): Record<string, number> {
  const sums: Record<string, number> = {};
  let least = Number.POSITIVE_INFINITY;
  mesh.zoneOf.forEach((zone, triangle) => {
    const nodes = mesh.triangles.subarray(10 * triangle, 10 * triangle + 10);
    const { place } = mesh.zones[zone]!;
    quadratureShapes.forEach(({ dN2, dN3 }, q) => {
      const sum = (slopes: Float64Array, v: Float64Array) =>
        nodes.reduce((total, node, i) => total + slopes[i]! * v[node]!, 0);
      const jacobian = sum(dN2, mesh.x) * sum(dN3, mesh.y) - sum(dN3, mesh.x) * sum(dN2, mesh.y);
      least = Math.min(least, jacobian);
      sums[place] = (sums[place] ?? 0) + quadrature.weight[q]! * jacobian;
    });
  });
  expect(least).toBeGreaterThan(0);
  return sums;
}

/** How often each side is used, once per direction; conforming where inner sides come in opposite pairs. */
function openSides({ triangles }: CubicMesh): string[] {
  const seen = new Set<string>();
  for (let t = 0; t < triangles.length; t += 10)
    for (const [a, near, far, b] of [
      [0, 3, 4, 1],
      [1, 5, 6, 2],
      [2, 7, 8, 0],
    ] as const) {
      const name = [a, near, far, b].map((k) => triangles[t + k]).join();
      const twin = [b, far, near, a].map((k) => triangles[t + k]).join();
      expect(seen.has(name)).toBe(false);
      if (!seen.delete(twin)) seen.add(name);
    }
  return [...seen];
}

describe('teeTriangles', () => {
  const t = layupThickness(joint.overlaminate);
  const R = joint.bendRadius;
  const outlines = {
    'a circle': outline(0.5, 0.5, 0, 1.25),
    'a circle 0.12 mm from the base': outline(0.5, 0.5, 0, 0.62),
    'a circle 0.12 mm from both arcs': outline(0.3, 0.3, 0, 5 - Math.sqrt(5.42 ** 2 - 25)),
    'a flat slot along the base': outline(1.8, 0.14, 0, 0.27, 0, -0.05),
    'a triangle-like outline off the middle, tilted': outline(0.7, 0.45, 0.4, 0.9, 0.5, 0.08),
    'a tall slot into the upper cusp': outline(0.14, 0.9, 0, 2.0, 0, -0.05),
    'a tiny circle': outline(0.06, 0.06, -0.8, 0.7),
  };

  for (const [name, nodes] of Object.entries(outlines))
    for (const coarseness of [1, 2])
      it(`fills the section without ${name} exactly, coarseness ${coarseness.toFixed(1)}`, () => {
        const mesh = teeTriangles(joint, [edgeCurve(nodes)], coarseness);
        const area = areas(mesh);
        const straightened = 0.01; // The tips' first slices are straight, an area of 1e-3 mm2 of filler.
        expect(area.skin).toBeCloseTo(2 * joint.skinHalfSpan * 3, 8);
        expect(area.web).toBeCloseTo(2 * joint.webHeight * t, 8);
        expect(area.foot).toBeCloseTo(2 * joint.footLength * t, 8);
        expect(Math.abs(area.bend! - (Math.PI / 2) * (R ** 2 - (R - t) ** 2))).toBeLessThan(straightened);
        expect(Math.abs(area.filler! - (2 * R * R * (1 - Math.PI / 4) - areaOf(nodes)))).toBeLessThan(straightened);
        expect(area.bend! + area.filler!).toBeCloseTo(
          (Math.PI / 2) * (R ** 2 - (R - t) ** 2) + 2 * R * R * (1 - Math.PI / 4) - areaOf(nodes),
          4,
        );
      });

  it('has no gap: every side has a neighbour, but for the outside and the edge', () => {
    const nodes = outlines['a triangle-like outline off the middle, tilted'];
    const mesh = teeTriangles(joint, [edgeCurve(nodes)], 1.5);
    const open = openSides(mesh);
    const channel = mesh.sides.get('channel')!;
    for (let k = 0; k < channel.length; k += 4) expect(open).toContain(channel.subarray(k, k + 4).join());
    // Outside: a closed polygon, so each node that starts a side ends one.
    const starts = open.map((side) => side.split(',')[0]!).sort();
    const ends = open.map((side) => side.split(',')[3]!).sort();
    expect(starts).toEqual(ends);
    expect(new Set(starts).size).toBe(starts.length);
  });

  it('meshes the filler without channel, other joints, and joints at absurd scales', () => {
    const other: TeeJoint = {
      ...joint,
      bendRadius: 2.2,
      overlaminate: layupFromPlies([0], 2, ply),
      skin: layupFromPlies([0, 90, 45, -45, 0], 0.2, ply),
      footLength: 4,
      webHeight: 6,
      skinHalfSpan: 6.2,
    };
    const expected = 2 * 2.2 ** 2 * (1 - Math.PI / 4);
    expect(areas(teeTriangles(other, [], 1)).filler).toBeCloseTo(expected, 2);
    for (const scale of [1e-3, 1e3]) {
      const scaled = {
        ...other,
        bendRadius: scale * other.bendRadius,
        overlaminate: other.overlaminate.map((layer) => ({ ...layer, thickness: scale * layer.thickness })),
        skin: other.skin.map((layer) => ({ ...layer, thickness: scale * layer.thickness })),
        footLength: scale * other.footLength,
        webHeight: scale * other.webHeight,
        skinHalfSpan: scale * other.skinHalfSpan,
      };
      const channel = outline(0.3 * scale, 0.2 * scale, 0, 0.5 * scale, 0.3);
      const mesh = teeTriangles(scaled, [edgeCurve(channel)], 1);
      expect(areas(mesh).filler! / scale ** 2).toBeCloseTo(expected - Math.PI * 0.06, 2);
      expect(mesh.zoneOf.length).toBe(
        teeTriangles(other, [edgeCurve(outline(0.3, 0.2, 0, 0.5, 0.3))], 1).zoneOf.length,
      );
    }
  });

  it('gives the same mesh every time', () => {
    const curve = () => edgeCurve(outlines['a circle']);
    expect(teeTriangles(joint, [curve()], 2)).toEqual(teeTriangles(joint, [curve()], 2));
  });

  it('refuses an outline that is not inside the filler', () => {
    for (const nodes of [outline(0.5, 0.5, 0, 0.4), outline(0.5, 0.5, 1.5, 1), outline(0.5, 0.5, 0, 9)])
      expect(() => teeTriangles(joint, [edgeCurve(nodes)], 1)).toThrow(InputError);
  });

  it('assembles: the axial stiffness is the sum of the layers', () => {
    const mesh = teeTriangles(joint, [edgeCurve(outlines['a circle'])], 2);
    const { elements, strainDof } = assembleCubic(mesh);
    let stiffness = 0;
    for (let e = 0; e < mesh.zoneOf.length; e++) stiffness += elements.matrices[441 * (e + 1) - 1]!;
    const area = areas(mesh);
    const wanted = (layers: TeeJoint['skin'], part: string) => {
      const total = layupThickness(layers);
      return layers.reduce((sum, { thickness }, k) => {
        const zone = mesh.zones.find(({ place, layer }) => place === part && layer === k)!;
        return sum + (thickness / total) * area[part]! * zone.material.stiffness[15]!;
      }, 0);
    };
    const filler = area.filler! * mesh.zones.find(({ place }) => place === 'filler')!.material.stiffness[15]!;
    // Layers of a bend have areas by their radii, so it is compared with the rest taken off.
    const straight =
      wanted(joint.skin, 'skin') + wanted(joint.overlaminate, 'web') + wanted(joint.overlaminate, 'foot');
    let outer = R;
    const bend = joint.overlaminate.reduce((sum, { thickness }, k) => {
      const zone = mesh.zones.find(({ place, layer }) => place === 'bend' && layer === k)!;
      const ring = (Math.PI / 2) * (outer ** 2 - (outer - thickness) ** 2);
      outer -= thickness;
      return sum + ring * zone.material.stiffness[15]!;
    }, 0);
    expect(strainDof).toBe(2 * mesh.x.length);
    expect(stiffness / (straight + bend + filler)).toBeCloseTo(1, 4);
  });
});
