import type { ProblemList } from '../../input/index.js';
import { layupThickness } from '../../material/index.js';
import type { TeeJoint } from './tee.js';

/** More take over 1 GB, or over a minute on one core: 16,000 elements took 0.53 GB, 70,000 unknowns of 7,600 triangles 0.25 GB. */
const mostElements = 30_000;
const mostTriangles = 40_000;

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

/** Whether a host whose elements are `finer` times shorter than usual keeps the same bound. */
export const keepsBound = (joint: TeeJoint, finer: number): boolean =>
  estimateSize(joint).elements * finer ** 2 <= mostElements;

/** Refuses what could not be computed, before anything is spent on it. */
export function checkSize(joint: TeeJoint, problems: ProblemList): void {
  const { elements, triangles } = estimateSize(joint);
  const size = `a joint that needs about ${thousands(elements)} elements and ${thousands(triangles)} triangles`;
  const expected = `a joint of at most ${thousands(mostElements)} elements in the host and ${thousands(mostTriangles)} triangles in the check (1 GB)`;
  if (trianglesOfPlies(joint) > mostTriangles) {
    const part = joint.skin.length > joint.overlaminate.length ? 'skin' : 'overlaminate';
    problems.add(
      ['host', part, 'layup'],
      expected,
      'give neighbouring plies that lean alike as one, or smear the skin (quasi-isotropic)',
      size,
    );
  } else if (elements > mostElements || triangles > mostTriangles)
    problems.add(
      ['host', 'overlaminate', 'plyThickness'],
      expected,
      `the overlaminate is ${Number(layupThickness(joint.overlaminate).toPrecision(3))} mm thick for a web of ${joint.webHeight} mm, a foot of ${joint.footLength} mm and a skin of ${2 * joint.skinHalfSpan} mm; thicknesses are in mm (not m); otherwise take shorter legs`,
      size,
    );
}

const thousands = (count: number) => Math.round(count).toLocaleString('en-US');
