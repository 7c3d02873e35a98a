import type { CubicMesh, EdgeCurve } from '../../../../mesh/triangle/index.js';
import type { MeshedLoads } from '../../../contract.js';
import type { Loads } from '../../../load.js';
import { solveTee } from '../../check/solve.js';
import { assertInFiller } from '../../check/triangles.js';
import { nameInFiller } from '../in-filler-places.js';
import { knownWall } from '../known-channel.js';
import { type PocketSite, type PocketTee, pocketSite } from '../site.js';
import { curveInJoint } from './solve.js';
import { knownCurve, pocketTeeTriangles, type TeeCurves } from './triangles.js';

/** A tee with a channel of known outline in its pocket, and with others in its filler, in the joint's coordinates: what is meshed is called as in a tee without pocket. */
export function meshInFillerLoads(
  joint: PocketTee,
  loads: Loads,
  curves: readonly EdgeCurve[],
  coarseness: number,
): MeshedLoads {
  const site = pocketSite(joint);
  const mesh = asTee(pocketTeeTriangles(joint, site, curvesInFiller(joint, site, curves), coarseness));
  return { mesh, solutions: solveTee(mesh, joint, loads) };
}

/** Of channels in its filler, beside a known one in its pocket. Throws `InputError` for those that do not lie there. */
export function curvesInFiller(joint: PocketTee, site: PocketSite, curves: readonly EdgeCurve[]): TeeCurves {
  for (const curve of curves) assertInFiller(joint, curve);
  const known = joint.pocket.channel!;
  knownWall(known, site.border, 'pocket');
  return { pocket: [curveInJoint(knownCurve(known), site)], filler: curves };
}

export function asTee(mesh: CubicMesh): CubicMesh {
  const sides = new Map(mesh.sides);
  const [inPocket, inFiller] = [sides.get('channel'), sides.get('filler-channel')];
  sides.delete('channel');
  sides.delete('filler-channel');
  if (inPocket !== undefined) sides.set('pocket-channel', inPocket);
  if (inFiller !== undefined) sides.set('channel', inFiller);
  return { ...mesh, sides, zones: mesh.zones.map((zone) => ({ ...zone, place: nameInFiller(zone.place) })) };
}
