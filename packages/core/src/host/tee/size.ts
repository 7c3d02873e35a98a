import type { ProblemList } from '../../input/index.js';
import { layupThickness } from '../../material/index.js';
import { beyondBound, describeSize, effortBound } from '../effort.js';
import type { TeeJoint } from './tee.js';

/**
 * About how many elements the two meshes of a tee come to, before either is made: columns of three quarters of the overlaminate's
 * thickness along web, foot and skin, a few dozen around the filler, a row and a half for each ply; triangles that shrink towards the end of a
 * foot that is thin beside the skin.
 */
export function estimateSize(joint: TeeJoint): { readonly elements: number; readonly triangles: number } {
  const thickness = layupThickness(joint.overlaminate);
  const column = 0.75 * thickness;
  const free = Math.max(0, joint.skinHalfSpan - joint.bendRadius - joint.footLength);
  const [web, foot, beyond] = [joint.webHeight / column, joint.footLength / column, free / column];
  const overlaminateRows = Math.max(joint.overlaminate.length, 3);
  const gradedRows = 4 + Math.max(0, 2.3 * Math.log(layupThickness(joint.skin) / thickness + 1));
  const skinRows = Math.max(joint.skin.length, gradedRows);
  return {
    elements: Math.round(overlaminateRows * (60 + web + foot) + skinRows * (50 + foot + beyond) + 300),
    triangles: Math.round(trianglesOfPlies(joint) + (270 * layupThickness(joint.skin)) / thickness),
  };
}

const trianglesOfPlies = ({ overlaminate, skin }: TeeJoint) => 3000 + 380 * overlaminate.length + 300 * skin.length;

/** Whether a host whose elements are `finer` times shorter than usual keeps the bound of all sections; the mesh of the check stays as it is. */
export const keepsBound = (joint: TeeJoint, finer: number): boolean =>
  beyondBound({ elements: estimateSize(joint).elements * finer ** 2, triangles: 0 }) === undefined;

/** Refuses what could not be computed, before anything is spent on it. */
export function checkSize(joint: TeeJoint, problems: ProblemList): void {
  const size = estimateSize(joint);
  const beyond = beyondBound(size);
  if (beyond === undefined) return;
  const arePlies = beyond === 'triangles' && trianglesOfPlies(joint) > size.triangles / 2;
  const part = joint.skin.length > joint.overlaminate.length ? 'skin' : 'overlaminate';
  problems.add(
    arePlies ? ['host', part, 'layup'] : ['host', 'overlaminate', 'plyThickness'],
    `a joint that ${effortBound}`,
    arePlies
      ? 'give neighbouring plies that lean alike as one, or smear the skin (quasi-isotropic)'
      : `the overlaminate is ${Number(layupThickness(joint.overlaminate).toPrecision(3))} mm thick for a web of ${joint.webHeight} mm, a foot of ${joint.footLength} mm and a skin of ${2 * joint.skinHalfSpan} mm; thicknesses are in mm (not m); otherwise take shorter legs`,
    `one of ${describeSize(size)}`,
  );
}
