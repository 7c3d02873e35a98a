import { type Factor, factorize } from '../../linear/index.js';
import { layupThickness } from '../../material/index.js';
import { assembleBody, edgeLoad, numberUnknowns } from '../../mesh/quad/index.js';
import { anew, type Choose } from '../choices.js';
import {
  type Combination,
  combined,
  eliminateBeyond,
  type OutsideBody,
  outsideBody,
  type Recoverable,
  type RecoverableHost,
  type Recovery,
} from '../condensed/index.js';
import type { ControlContour } from './contour.js';
import { endShear, type Hold, type LaminateJoint, middleHeight } from './laminate.js';
import { type LaminateMesh, meshLaminate } from './laminate-mesh.js';
import { pocketForm } from './pocket.js';
import { type SectionRows, sectionRecovery } from './recovery.js';

/**
 * Unit loads: N/mm along the laminate, N mm/mm (the top pulls), N/mm through the thickness, MPa on both faces; of a row a mean strain along, to which
 * its mirror planes are moved apart.
 */
type Scalar = 'strainZ' | 'deltaT' | 'stretch' | 'bend' | 'shear' | 'flatwise' | 'strain';

/** What the mesh borders in; the loads on the faces at the ends come with the unknowns of these. */
const bordered = ['strainZ', 'deltaT', 'flatwise', 'shear'] as const satisfies readonly Scalar[];

/**
 * Meshes the right half of a laminate outside its control contour once, factors it once with the contour, the axis x = 0 and the end face
 * kept, and closes that small matrix for every hold and symmetry. The end face stays plane: symmetric fields move and turn it as the hold
 * lets them; antisymmetric ones shift it along, whatever the hold.
 */
export function condenseLaminate(
  joint: LaminateJoint,
  contour: ControlContour,
  holds: readonly Hold[],
  refinement = 1,
  choose: Choose = anew,
): { readonly host: RecoverableHost; readonly rows: SectionRows['rows'] } {
  const mesh = meshLaminate(joint, contour, { refinement }, choose);
  const { recovery, rows } = sectionRecovery(joint, mesh, choose);
  const whole = factorWhole(joint, mesh, recovery);
  const antisymmetric = close(whole, ['shear'], { free: antisymmetricFace(whole) }, 1);
  return {
    host: {
      contour: { x: contour.x, y: contour.y, closed: false },
      supports: holds.map((hold) => ({ symmetric: closeSymmetric(whole, hold, joint), antisymmetric })),
      body: whole.body,
    },
    rows,
  };
}

/** The host's factor with its kept unknowns: contour, bordered scalars, axis, end face. */
interface Whole {
  readonly factor: Factor;
  readonly body: OutsideBody;
  readonly contourCount: number;
  readonly axisStart: number;
  readonly endStart: number;
  /** Heights of the end's nodes above its middle, from the bottom up. */
  readonly endHeights: readonly number[];
}

function factorWhole(joint: LaminateJoint, laminate: LaminateMesh, recovery: Recovery): Whole {
  const { mesh } = laminate.body;
  const form = pocketForm(joint);
  const stress = endShear(layupThickness(joint.layup));
  const normal = (x: number, y: number, sign: 1 | -1): [number, number] => {
    const angle = form.angle(x, y);
    return [-sign * Math.sin(angle), sign * Math.cos(angle)];
  };
  const bottom = edgeLoad(mesh, laminate.bottomFace, (x, y) => normal(x, y, -1));
  const top = edgeLoad(mesh, laminate.topFace, (x, y) => normal(x, y, 1));
  const flatwise = { ...top, dofs: [...bottom.dofs, ...top.dofs], force: [...bottom.force, ...top.force] };
  const loads = [flatwise, edgeLoad(mesh, laminate.endFace, (_, y) => [0, stress(y)])];
  const unknowns = numberUnknowns(mesh.x.length, loads.length);
  const ofNodes = (nodes: Iterable<number>) => [...nodes].flatMap((node) => [2 * node, 2 * node + 1]);
  const scalars = [unknowns.strainZ, unknowns.deltaT, ...loads.map((_, l) => unknowns.load(l))];
  const contourCount = laminate.contourNodes.length;
  const axisStart = 2 * contourCount + scalars.length;
  const factor = factorize(assembleBody(laminate.body, loads), {
    retained: [
      ...ofNodes(laminate.contourNodes),
      ...scalars,
      ...ofNodes(laminate.axisNodes),
      ...ofNodes(laminate.endNodes),
    ],
  });
  return {
    factor,
    body: outsideBody(factor, recovery),
    contourCount,
    axisStart,
    endStart: axisStart + 2 * laminate.axisNodes.length,
    endHeights: laminate.endNodes.map((node) => mesh.y[node]! - middleHeight(joint)),
  };
}

function antisymmetricFace({ endStart, endHeights }: Whole): Combination[] {
  return endHeights.map((_, k) => [[endStart + 2 * k + 1, 1]]);
}

function closeSymmetric(whole: Whole, { distance, direction }: Hold, { row, width }: LaminateJoint): Recoverable {
  const { endStart, endHeights } = whole;
  const along = (by: number): Combination => endHeights.map((_, k) => [endStart + 2 * k, by]);
  const turning: Combination = endHeights.map((height, k) => [endStart + 2 * k, height]);
  return close(
    whole,
    ['strainZ', 'deltaT', 'flatwise'],
    {
      // The lowest node holds the laminate up.
      free: antisymmetricFace(whole).slice(1),
      loaded: [
        ...(distance ? [] : [{ scalar: 'stretch' as const, motion: along(1) }]),
        ...(direction ? [] : [{ scalar: 'bend' as const, motion: turning }]),
      ],
      given: distance && row ? [{ scalar: 'strain', motion: along(width / 2) }] : [],
    },
    0,
  );
}

/** A motion of the end face, and the scalar that is a load on it, or its size. */
interface FaceMotion {
  readonly scalar: Scalar;
  readonly motion: Combination;
}

/** How the end face moves: freely, by unknowns each with a load on it, by sizes that are given. */
interface EndFace {
  readonly free: readonly Combination[];
  readonly loaded?: readonly FaceMotion[];
  readonly given?: readonly FaceMotion[];
}

/**
 * Closes the kept unknowns: of contour and axis the components other than `held` are free. Eliminates all but contour and scalars.
 */
function close(
  { factor, contourCount, axisStart, endStart }: Whole,
  scalars: readonly (typeof bordered)[number][],
  { free, loaded: faces = [], given = [] }: EndFace,
  held: 0 | 1,
): Recoverable {
  const onContour: number[] = [];
  for (let dof = 0; dof < 2 * contourCount; dof++)
    if (dof !== held && dof !== 2 * (contourCount - 1) + held) onContour.push(dof);
  const onAxis: number[] = [];
  for (let dof = axisStart + 1 - held; dof < endStart; dof += 2) onAxis.push(dof);
  const kept: Combination[] = [
    ...onContour.map((dof): Combination => [[dof, 1]]),
    ...scalars.map((scalar): Combination => [[2 * contourCount + bordered.indexOf(scalar), 1]]),
    ...given.map(({ motion }) => motion),
    ...faces.map(() => []),
  ];
  const unknowns: Combination[] = [
    ...kept,
    ...onAxis.map((dof): Combination => [[dof, 1]]),
    ...free,
    ...faces.map(({ motion }) => motion),
  ];
  const matrix = combined(factor, unknowns);
  const order = unknowns.length;
  const firstLoad = kept.length - faces.length;
  const firstMotion = order - faces.length;
  faces.forEach((_, f) => {
    matrix[(firstMotion + f) * order + firstLoad + f]! -= 1;
    matrix[(firstLoad + f) * order + firstMotion + f]! -= 1;
  });
  const small = eliminateBeyond(kept.length, { factor, unknowns, matrix });
  const all = [...scalars, ...[...given, ...faces].map(({ scalar }) => scalar)];
  const size = 2 * contourCount + all.length;
  const place = [...onContour, ...all.map((_, s) => 2 * contourCount + s)];
  const out = new Float64Array(size * size);
  place.forEach((row, i) => {
    place.forEach((column, j) => {
      out[row * size + column] = small.schur[i * kept.length + j]!;
    });
  });
  return {
    scalars: all,
    matrix: out,
    kept(a, columns) {
      const values = new Float64Array(kept.length * columns);
      place.forEach((from, i) => {
        values.set(a.subarray(from * columns, (from + 1) * columns), i * columns);
      });
      return small.kept(values, columns);
    },
  };
}
