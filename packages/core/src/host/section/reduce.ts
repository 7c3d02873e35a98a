import { contourBasis, innerPressure, type ScalarLoad, type SolvedHost, solveHost } from '../condensed/index.js';
import type { RoomWish } from '../contract.js';
import type { ReducedModel } from '../reduced-model.js';
import type { SectionBody } from './body.js';
import { type CondensedSection, condenseSection, scalarOf } from './condense.js';
import { type ControlContour, controlContour } from './contour.js';

const held = 0;
const free = 1;

/** Throws InputError for walls that leave no room, and for loads that supports do not hold. */
export function reduceSection(section: SectionBody, wish: Omit<RoomWish, 'mirror'>): ReducedModel {
  const contour = controlContour(section.border, section.box, wish);
  const condensed = condenseSection(section, contour);
  return modelOf(section, contour, condensed, solveOnContour(section, contour, condensed));
}

function solveOnContour({ joint }: SectionBody, contour: ControlContour, { host }: CondensedSection): SolvedHost {
  const basis = contourBasis(contour, ...contour.middle, contour.degree);
  return solveHost(host, joint.surfaces[joint.filler]!.ply, basis, [
    { name: 'cure', size: 'deltaT', scalar: 'deltaT', support: free, symmetric: false },
    innerPressure(basis, held),
    ...Object.keys(joint.loads).map(
      (name): ScalarLoad => ({ name, size: 'force', scalar: scalarOf(name), support: held, symmetric: false }),
    ),
  ]);
}

/** Points across the largest circle where the filler is looked at without channel. */
const across = 12;

function modelOf(
  { circle }: SectionBody,
  contour: ControlContour,
  { host, rows }: CondensedSection,
  { stresses, ...solved }: SolvedHost,
): ReducedModel {
  const chosen = rows.flat();
  const points = chosen.map((point) => host.sectionPoints[point]!);
  const { loads, change } = stresses(chosen);
  const range = (values: Float64Array) => [Math.min(...values), Math.max(...values)] as const;
  const [[xMin, xMax], [yMin, yMax]] = [range(contour.x), range(contour.y)];
  return {
    kind: 'section',
    ...solved,
    loads,
    places: {
      points,
      rows: rows.map(({ length }) => length),
      change,
      continued: { points: new Uint8Array(points.length), within: 0 },
      inner: { xMin, xMax, yMin, yMax, step: (2 * circle.radius) / across },
    },
    contour: contour.data,
  };
}
