import { InputError } from '../../../errors.js';
import {
  contourBasis,
  finerFields,
  innerPressure,
  insideContour,
  placedModel,
  solveHost,
  upToDegree,
} from '../../condensed/index.js';
import type { RoomWish } from '../../contract.js';
import type { ReducedModel } from '../../reduced-model.js';
import { type ControlContour, controlContour } from '../contour.js';
import { limitProbes } from '../probes.js';
import { aroundContour, finerDegree, usualFineness } from '../reduce.js';
import { fillerRadius } from '../rounded-filler.js';
import { held, scalarLoads } from '../unit-loads.js';
import { type CondensedPocketTee, condenseMeshed } from './condense.js';
import { addAroundChannel } from './filler-rows.js';
import { bothHalves, meshAroundFiller } from './in-filler-mesh.js';
import { nameInFiller } from './in-filler-places.js';
import { pocketTeeRecovery } from './recovery.js';
import { proveDegrees } from './reduce.js';
import type { PocketSite, PocketTee } from './site.js';

/** Longest edge of the contour, in distances from the filler's border: triangles lie between them. More edges than this are too large a matrix. */
const stepOfInset = 1.2;
const mostEdges = 700;

/** The control contour of the filler, as finely divided as triangles beside it ask for. Throws `InputError` where it cannot be. */
export function contourInFiller({ bendRadius: R }: PocketTee, wish: Omit<RoomWish, 'mirror'>): ControlContour {
  const { wall, edgeRadius } = wish;
  const usual = controlContour(R, wall, edgeRadius, usualFineness.edges);
  const length = usual.x.reduce(
    (sum, x, i) => (i === 0 ? 0 : sum + Math.hypot(x - usual.x[i - 1]!, usual.y[i]! - usual.y[i - 1]!)),
    0,
  );
  const edges = Math.ceil((2 * length) / (stepOfInset * usual.inset));
  if (edges > mostEdges)
    throw new InputError({
      path: 'channel.wall',
      expected: `beside a channel in a pocket at least ${Number(((wall * edges) / mostEdges).toPrecision(2))} mm`,
      received: `${wall} mm`,
      remedy: 'ask for more channel.wall, or take host.pocket out',
    });
  return edges > usualFineness.edges ? controlContour(R, wall, edgeRadius, edges) : usual;
}

/** Degrees of the fields in the filler, as in a tee without pocket. */
const degrees = [usualFineness.degree, 36, 44, finerDegree] as const;

/**
 * Condenses a tee with a channel of known outline in its pocket onto a control contour in its filler, with the first degree that is enough.
 *
 * @param onProgress is told the share that is done
 * @throws InputError for walls that leave no room, or are too thin
 */
export function reduceInFiller(
  joint: PocketTee,
  site: PocketSite,
  wish: Omit<RoomWish, 'mirror'>,
  isLeftOut: (place: string, x: number, y: number) => boolean,
  onProgress?: (share: number) => void,
): ReducedModel {
  const { bendRadius: R, filler, support } = joint;
  const contour = contourInFiller(joint, wish);
  const { host, rows } = condenseInFiller(joint, site, contour);
  onProgress?.(0.6);
  const top = degrees.at(-1)!;
  const all = insideContour(host.contour, filler, contourBasis(host.contour, 0, fillerRadius(R), top));
  const solve = (degree: number) => {
    const inside = degree < top ? upToDegree(all, degree) : all;
    return solveHost(host, inside, [...scalarLoads(support, false), innerPressure(inside.basis, held)]);
  };
  // No load is symmetric beside a pocket.
  const probes = limitProbes(R, wish.wall, wish.edgeRadius).map((probe) => ({ ...probe, mirror: false }));
  const proof = proveDegrees(degrees, solve, probes, () => onProgress?.(0.8));
  onProgress?.(1);
  const { points } = host.body;
  const kept = rows.map((row) => row.filter((p) => !isLeftOut(points[p]!.place, points[p]!.x, points[p]!.y)));
  return {
    ...placedModel('tee', proof, { points, rows: kept.filter((row) => row.length > 0) }, aroundContour(contour)),
    accuracy: proof.accuracy,
    finer: finerFields(proof.finer),
  };
}

function condenseInFiller(joint: PocketTee, site: PocketSite, half: ControlContour): CondensedPocketTee {
  const outline = bothHalves(half);
  const tee = meshAroundFiller(joint, site, outline);
  const recovered = pocketTeeRecovery(joint, site, tee, { addAroundChannel });
  const points = recovered.recovery.points.map((point) => ({ ...point, place: nameInFiller(point.place) }));
  const contour = { x: Float64Array.from(outline, ([x]) => x), y: Float64Array.from(outline, ([, y]) => y) };
  return condenseMeshed(joint, tee, recovered, { contour, points, turn: 0 });
}
