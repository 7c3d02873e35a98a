import {
  type CondensedHost,
  contourBasis,
  innerPressure,
  type ScalarLoad,
  type SolvedHost,
  solveHost,
} from '../../condensed/index.js';
import type { RoomWish } from '../../contract.js';
import { type ControlContour, continuedBeside, controlContour, degreeFor, innerGrid } from '../../laminate/index.js';
import type { ReducedModel } from '../../reduced-model.js';
import { condensePocketTee } from './condense.js';
import { contourData } from './contour.js';
import { type PocketSite, type PocketTee, pocketSite } from './site.js';

const held = 0;
const free = 1;

const scalarLoads: readonly ScalarLoad[] = [
  { name: 'pull', size: 'force', scalar: 'pull', support: held, symmetric: false },
  { name: 'side', size: 'force', scalar: 'side', support: held, symmetric: false },
  // End moments balance each other: the joint is free to bend.
  { name: 'moment', size: 'moment', scalar: 'moment', support: free, symmetric: false },
  { name: 'cure', size: 'deltaT', scalar: 'deltaT', support: free, symmetric: false },
];

/** A tee with a pocket, condensed onto the control contour in it. */
interface PocketTeeOnContour {
  readonly joint: PocketTee;
  readonly site: PocketSite;
  readonly contour: ControlContour;
  readonly host: CondensedHost;
  readonly rows: readonly (readonly number[])[];
}

/** Throws `InputError` for walls that leave no room. */
export function reducePocketTee(joint: PocketTee, wish: Omit<RoomWish, 'mirror'>, refinement = 1): ReducedModel {
  const site = pocketSite(joint);
  const contour = controlContour(site.laminate, wish, refinement);
  const condensed = { joint, site, contour, ...condensePocketTee(joint, site, contour, refinement) };
  const { x, y } = condensed.host.contour;
  const middle = (Math.min(...y) + Math.max(...y)) / 2;
  // The contour is its own mirror image in the frame's x = 0, which its basis counts on.
  const basis = contourBasis({ x, y, closed: true }, 0, middle, degreeFor(contour.aspect));
  return modelOf(
    condensed,
    solveHost(condensed.host, joint.pocket.resin, basis, [...scalarLoads, innerPressure(basis, held)]),
  );
}

function modelOf({ site, contour, host, rows }: PocketTeeOnContour, { stresses, ...solved }: SolvedHost): ReducedModel {
  const chosen = rows.flat();
  const points = chosen.map((point) => host.sectionPoints[point]!);
  const { loads, change } = stresses(chosen);
  const flat = points.map(({ place, x, y }) => {
    const [s, level] = site.unfold(x, y);
    return { place, x: s, y: level };
  });
  return {
    kind: 'tee',
    ...solved,
    loads,
    places: {
      points,
      rows: rows.map(({ length }) => length),
      change,
      continued: continuedBeside(contour, flat),
      inner: innerGridIn(host, contour),
    },
    contour: contourData(site, contour),
  };
}

/** A bend's pocket reaches below its middle with its ends. */
function innerGridIn({ contour: { x, y } }: CondensedHost, contour: ControlContour) {
  const flat = innerGrid(contour);
  return { ...flat, xMin: Math.min(...x), xMax: Math.max(...x), yMin: Math.min(...y), yMax: Math.max(...y) };
}
