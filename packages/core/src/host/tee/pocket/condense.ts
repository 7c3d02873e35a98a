import { type Factor, factorize } from '../../../linear/index.js';
import { layupThickness } from '../../../material/index.js';
import { assembleBody, edgeLoad, numberUnknowns } from '../../../mesh/quad/index.js';
import { cube } from '../../../power.js';
import {
  type Combination,
  combined,
  eliminateBeyond,
  outsideBody,
  type Recoverable,
  type RecoverableHost,
} from '../../condensed/index.js';
import type { ControlContour } from '../../laminate/index.js';
import type { SectionPoint } from '../../place.js';
import type { Beside } from './beside.js';
import { type PocketRows, pocketTeeRecovery } from './recovery.js';
import type { PocketSite, PocketTee } from './site.js';
import { meshPocketTee, type PocketTeeMesh } from './tee-mesh.js';

/** `pull`, `side`: N/mm on the whole web; `moment`: N mm/mm at each skin end. */
type Scalar = 'strainZ' | 'deltaT' | 'pull' | 'side' | 'moment';
const allScalars: readonly Scalar[] = ['strainZ', 'deltaT', 'pull', 'side', 'moment'];

type Support = 'clamped' | 'simple' | 'free';

/** A free body takes only what balances itself, clamped ends swallow the moment. */
const scalarsOf: Readonly<Record<Support, readonly Scalar[]>> = {
  clamped: ['strainZ', 'deltaT', 'pull', 'side'],
  simple: allScalars,
  free: ['strainZ', 'deltaT', 'moment'],
};

/** A whole tee with a pocket, condensed; the numbers of its section points in rows. */
export interface CondensedPocketTee {
  readonly host: RecoverableHost;
  readonly rows: PocketRows['rows'];
}

/**
 * Meshes a whole tee with a pocket outside its control contour and condenses it in the pocket's frame. The pocket leaves no symmetry: its host
 * answers as a whole.
 */
export function condensePocketTee(
  joint: PocketTee,
  site: PocketSite,
  contour: ControlContour,
  refinement: number,
  beside?: Beside,
): CondensedPocketTee {
  const tee = meshPocketTee(joint, site, contour, refinement, beside);
  const recovered = pocketTeeRecovery(joint, site, tee, beside);
  const points = recovered.recovery.points.map((point) => {
    const [x, y] = site.toFrame(point.x, point.y);
    return { ...point, x, y, normalAngle: point.normalAngle - site.turn };
  });
  return condenseMeshed(joint, tee, recovered, { contour: wholeContour(site, contour), points, turn: site.turn });
}

/** As what a mesh is told: the contour and section points in axes that are turned by `turn`. */
interface ToldAs {
  readonly contour: { readonly x: Float64Array; readonly y: Float64Array };
  readonly points: readonly SectionPoint[];
  readonly turn: number;
}

/**
 * Factors a mesh once with the contour, the skin's ends and the scalars kept, and closes that small matrix as the ends are held and free.
 */
export function condenseMeshed(
  joint: PocketTee,
  tee: PocketTeeMesh,
  { recovery, rows }: PocketRows,
  { contour, points, turn }: ToldAs,
): CondensedPocketTee {
  const whole = factorWhole(joint, tee);
  return {
    host: {
      contour: { ...contour, closed: true },
      supports: [joint.support, 'free' as const].map((support) => ({
        whole: turned(close(whole, support), contour.x.length, turn),
      })),
      body: { ...outsideBody(whole.factor, recovery), points },
    },
    rows,
  };
}

/** The contour on both sides of the pocket's middle, counter-clockwise from its bottom; in the frame. */
function wholeContour({ fold }: PocketSite, contour: ControlContour) {
  const last = contour.x.length - 1;
  const points = Array.from({ length: 2 * last }, (_, j) => {
    const node = Math.min(j, 2 * last - j);
    return fold(j > last ? -contour.x[node]! : contour.x[node]!, contour.y[node]!);
  });
  return { x: Float64Array.from(points, ([x]) => x), y: Float64Array.from(points, ([, y]) => y) };
}

/** The factor with its kept unknowns: contour, scalars, then the nodes of the ends, left and right. */
interface Whole {
  readonly factor: Factor;
  readonly contourCount: number;
  readonly ends: readonly (readonly number[])[];
}

function factorWhole(joint: PocketTee, tee: PocketTeeMesh): Whole {
  const { mesh } = tee.body;
  const web = 2 * layupThickness(joint.overlaminate);
  const depth = layupThickness(joint.skin);
  const bent = (_: number, y: number) => (12 * (y + depth / 2)) / cube(depth);
  const moments = [
    edgeLoad(mesh, tee.rightEnd, (x, y) => [bent(x, y), 0]),
    edgeLoad(mesh, tee.leftEnd, (x, y) => [-bent(x, y), 0]),
  ] as const;
  const loads = [
    edgeLoad(mesh, tee.webTop, () => [0, 1 / web]),
    edgeLoad(mesh, tee.webTop, () => [1 / web, 0]),
    {
      ...moments[0],
      dofs: [...moments[0].dofs, ...moments[1].dofs],
      force: [...moments[0].force, ...moments[1].force],
    },
  ];
  const unknowns = numberUnknowns(mesh.x.length, loads.length);
  const nodesOf = (edges: PocketTeeMesh['rightEnd']) =>
    [...new Set(edges.flat())].sort((a, b) => mesh.y[a]! - mesh.y[b]!);
  const ends = [nodesOf(tee.leftEnd), nodesOf(tee.rightEnd)];
  const ofNodes = (nodes: Iterable<number>) => [...nodes].flatMap((node) => [2 * node, 2 * node + 1]);
  const scalars = [unknowns.strainZ, unknowns.deltaT, ...loads.map((_, l) => unknowns.load(l))];
  return {
    factor: factorize(assembleBody(tee.body, loads), {
      retained: [...ofNodes(tee.contourNodes), ...scalars, ...ends.flatMap(ofNodes)],
    }),
    contourCount: tee.contourNodes.length,
    ends,
  };
}

/**
 * What the ends may do. 'clamped': nothing. 'simple': move along, their lowest nodes against each other. 'free': of the lowest nodes only
 * that, which holds the body without force.
 */
function motionsOf({ contourCount, ends }: Whole, support: Support): Combination[] {
  if (support === 'clamped') return [];
  const motions: Combination[] = [];
  let dof = 2 * contourCount + allScalars.length;
  const lowest: number[] = [];
  for (const nodes of ends)
    nodes.forEach((_, k) => {
      if (k === 0) lowest.push(dof);
      else {
        motions.push([[dof, 1]]);
        if (support === 'free') motions.push([[dof + 1, 1]]);
      }
      dof += 2;
    });
  const [left, right] = lowest as [number, number];
  motions.push([
    [left, 1],
    [right, -1],
  ]);
  return motions;
}

/** Applies a support to the kept unknowns and eliminates all but contour and scalars. */
function close(whole: Whole, support: Support): Recoverable<Scalar> {
  const { factor, contourCount } = whole;
  const scalars = scalarsOf[support];
  const kept: Combination[] = [
    ...Array.from({ length: 2 * contourCount }, (_, dof): Combination => [[dof, 1]]),
    ...scalars.map((scalar): Combination => [[2 * contourCount + allScalars.indexOf(scalar), 1]]),
  ];
  const unknowns = [...kept, ...motionsOf(whole, support)];
  const small = eliminateBeyond(kept.length, { factor, unknowns, matrix: combined(factor, unknowns) });
  return { scalars, matrix: small.schur, kept: small.kept };
}

/** The same with displacements of the contour's `count` nodes in a frame whose x axis is turned by `turn`. */
function turned(condensed: Recoverable<Scalar>, count: number, turn: number): Recoverable<Scalar> {
  if (turn === 0) return condensed;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const order = 2 * count + condensed.scalars.length;
  /** Rows of nodes from the frame's axes to the joint's, or back. */
  const rotate = (values: Float64Array, columns: number, sign: 1 | -1) => {
    for (let node = 0; node < count; node++)
      for (let k = 0; k < columns; k++) {
        const at = 2 * node * columns + k;
        const [u, v] = [values[at]!, values[at + columns]!];
        values[at] = c * u - sign * s * v;
        values[at + columns] = c * v + sign * s * u;
      }
    return values;
  };
  const transposed = (values: Float64Array) =>
    Float64Array.from(values, (_, i) => values[(i % order) * order + Math.floor(i / order)]!);
  const half = transposed(rotate(condensed.matrix.slice(), order, -1));
  return {
    scalars: condensed.scalars,
    matrix: rotate(half, order, -1),
    kept: (a, columns) => condensed.kept(rotate(a.slice(), columns, 1), columns),
  };
}
