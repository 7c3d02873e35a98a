import type { CubicMesh, EdgeCurve, Solution, Zone } from '../../../../mesh/triangle/index.js';
import type { MeshedLoads } from '../../../contract.js';
import type { Loads } from '../../../load.js';
import { teeFillerBorder } from '../../border.js';
import { solveTee } from '../../check/solve.js';
import { knownWall } from '../known-channel.js';
import { type PocketSite, type PocketTee, pocketSite } from '../site.js';
import { knownCurve, pocketTeeTriangles, type TeeCurves } from './triangles.js';

/** The whole section in triangles, and every load on it; `curves` and what is returned are in the pocket's frame. */
export function meshPocketTeeLoads(
  joint: PocketTee,
  loads: Loads,
  curves: readonly EdgeCurve[],
  coarseness: number,
): MeshedLoads {
  const site = pocketSite(joint);
  const mesh = pocketTeeTriangles(joint, site, curvesInPocket(joint, site, curves), coarseness);
  const solutions = [...solveTee(mesh, joint, loads)].map(([name, one]) => [name, solutionInFrame(one, site)] as const);
  return { mesh: meshInFrame(mesh, site), solutions: new Map(solutions) };
}

/** Of channels in its pocket, beside a known one in its filler. Throws `InputError` where that does not lie there. */
export function curvesInPocket(
  { bendRadius, fillerChannel }: PocketTee,
  site: PocketSite,
  curves: readonly EdgeCurve[],
): TeeCurves {
  if (fillerChannel !== undefined) knownWall(fillerChannel, teeFillerBorder(bendRadius), 'filler');
  return {
    pocket: curves.map((curve) => curveInJoint(curve, site)),
    filler: fillerChannel === undefined ? [] : [knownCurve(fillerChannel)],
  };
}

export function curveInJoint(curve: EdgeCurve, { toJoint, turn }: PocketSite): EdgeCurve {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return {
    ...curve,
    at(arc, out) {
      curve.at(arc, out);
      const [x, y] = toJoint(out[0]!, out[1]!);
      const [tx, ty] = [out[2]!, out[3]!];
      out[0] = x;
      out[1] = y;
      out[2] = c * tx - s * ty;
      out[3] = s * tx + c * ty;
    },
  };
}

function meshInFrame(mesh: CubicMesh, { toFrame, toJoint, turn }: PocketSite): CubicMesh {
  const x = new Float64Array(mesh.x.length);
  const y = new Float64Array(mesh.y.length);
  for (let node = 0; node < x.length; node++) {
    const [frameX, frameY] = toFrame(mesh.x[node]!, mesh.y[node]!);
    x[node] = frameX;
    y[node] = frameY;
  }
  const turned = (normal: Zone['normal']): Zone['normal'] => {
    if ('angle' in normal) return { angle: normal.angle - turn };
    if ('centre' in normal) return { centre: toFrame(...normal.centre) };
    return { angleAt: (atX, atY) => normal.angleAt(...toJoint(atX, atY)) - turn };
  };
  return { ...mesh, x, y, zones: mesh.zones.map((zone) => ({ ...zone, normal: turned(zone.normal) })) };
}

function solutionInFrame({ u, ...rest }: Solution, { turn }: PocketSite): Solution {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const turned = u.slice();
  for (let i = 0; i + 1 < u.length; i += 2) {
    turned[i] = c * u[i]! + s * u[i + 1]!;
    turned[i + 1] = c * u[i + 1]! - s * u[i]!;
  }
  return { u: turned, ...rest };
}
