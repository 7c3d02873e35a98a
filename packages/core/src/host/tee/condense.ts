import { InputError } from '../../errors.js';
import { type Factor, factorize } from '../../linear/index.js';
import { layupThickness } from '../../material/index.js';
import { assembleBody, edgeLoad, numberUnknowns } from '../../mesh/quad/index.js';
import { cube } from '../../power.js';
import { type OutsideBody, outsideBody, type Recoverable } from '../condensed/index.js';
import type { ControlContour } from './contour.js';
import { sectionRecovery } from './recovery.js';
import type { TeeJoint } from './tee.js';
import { meshTee, type TeeMesh } from './tee-mesh.js';

/**
 * The joint is mirror-symmetric, so only `x >= 0` is meshed, once with symmetric and once with antisymmetric conditions on `x = 0`.
 * `support` 'free': none but rigid-body pins that carry no force.
 */
export interface HalfRequest {
  readonly symmetry: 'symmetric' | 'antisymmetric';
  readonly support: 'clamped' | 'simple' | 'free';
}

/** `pull`, `side`: N/mm on the whole web; `moment`: N mm/mm at each skin end. */
type Scalar = 'strainZ' | 'deltaT' | 'pull' | 'side' | 'moment';

/** The right half of a tee outside its control contour. */
export interface TeeHalf extends Recoverable<Scalar>, HalfRequest {}

export interface CondensedTee {
  /** As requested. */
  readonly halves: readonly TeeHalf[];
  readonly body: OutsideBody;
}

export interface CondenseOptions {
  /** Half-models wanted; by default both symmetries with the joint's support and free. */
  readonly halves?: readonly HalfRequest[];
  /** Divides every element size but the contour's; 1 gives peaks to 0.1 %. */
  readonly refinement?: number;
}

/** Scalars in the order in which the mesh borders them in: the uniform strains, then the loads. */
const allScalars: readonly Scalar[] = ['strainZ', 'deltaT', 'pull', 'side', 'moment'];

/**
 * What can act on a half-model. A free body takes only what balances itself (uniform strains and the pair of end moments),
 * clamped ends swallow the moment.
 */
function scalarsOf({ symmetry, support }: HalfRequest): readonly Scalar[] {
  if (symmetry === 'antisymmetric') return support === 'free' ? [] : ['side'];
  if (support === 'clamped') return ['strainZ', 'deltaT', 'pull'];
  return support === 'simple' ? ['strainZ', 'deltaT', 'pull', 'moment'] : ['strainZ', 'deltaT', 'moment'];
}

/**
 * Meshes the right half of a tee outside its control contour once, factors it once with the contour, the axis x = 0, the
 * skin's end and the scalars kept, and closes that small matrix for each half-model wanted.
 *
 * Supports: 'clamped' holds the skin's end faces; 'simple' holds their vertical displacement, and in the antisymmetric half also
 * the horizontal one of their bottom node, which takes the reaction of a side load; 'free' pins that node against rigid motion.
 * Throws `InputError` where contour and joint do not belong together or the geometry cannot be meshed.
 */
export function condenseTee(joint: TeeJoint, contour: ControlContour, options: CondenseOptions = {}): CondensedTee {
  checkGeometry(joint, contour);
  const tee = meshTee(joint, contour, options.refinement ?? 1);
  const whole = factorWhole(joint, tee);
  const halves = options.halves ?? [
    { symmetry: 'symmetric', support: joint.support },
    { symmetry: 'symmetric', support: 'free' },
    { symmetry: 'antisymmetric', support: joint.support },
    { symmetry: 'antisymmetric', support: 'free' },
  ];
  return {
    halves: halves.map((request) => closeHalf(request, whole)),
    body: outsideBody(whole.factor, sectionRecovery(joint, tee)),
  };
}

/** The host's factor with its kept unknowns: contour, scalars, then axis and skin end. */
interface WholeFactor {
  readonly factor: Factor;
  /** Node numbers, two unknowns each, before and after the scalars. */
  readonly contourCount: number;
  readonly axisStart: number;
  readonly axisCount: number;
  readonly endStart: number;
  readonly endCount: number;
}

function factorWhole(joint: TeeJoint, tee: TeeMesh): WholeFactor {
  const { mesh } = tee.body;
  const t = layupThickness(joint.overlaminate);
  const depth = layupThickness(joint.skin);
  const loads = [
    // One N/mm on the whole web is half on this side.
    edgeLoad(mesh, tee.webTop, () => [0, 0.5 / t]),
    edgeLoad(mesh, tee.webTop, () => [0.5 / t, 0]),
    edgeLoad(mesh, tee.skinEnd, (_, y) => [(12 * (y + depth / 2)) / cube(depth), 0]),
  ];
  const unknowns = numberUnknowns(mesh.x.length, loads.length);
  const endNodes = [...new Set(tee.skinEnd.flat())].sort((a, b) => mesh.y[a]! - mesh.y[b]!);
  const ofNodes = (nodes: Iterable<number>) => [...nodes].flatMap((node) => [2 * node, 2 * node + 1]);
  const scalars = [unknowns.strainZ, unknowns.deltaT, ...loads.map((_, l) => unknowns.load(l))];
  const retained = [...ofNodes(tee.contourNodes), ...scalars, ...ofNodes(tee.axisNodes), ...ofNodes(endNodes)];
  const contourCount = tee.contourNodes.length;
  const axisStart = 2 * contourCount + scalars.length;
  return {
    factor: factorize(assembleBody(tee.body, loads), { retained }),
    contourCount,
    axisStart,
    axisCount: tee.axisNodes.length,
    endStart: axisStart + 2 * tee.axisNodes.length,
    endCount: endNodes.length,
  };
}

/** Applies symmetry and support to the kept unknowns and eliminates all but contour and scalars. */
function closeHalf(request: HalfRequest, whole: WholeFactor): TeeHalf {
  const { factor, contourCount, axisStart, axisCount, endStart, endCount } = whole;
  const order = factor.retained.length;
  const scalars = scalarsOf(request);
  // On the axis a symmetric field has no u, an antisymmetric one no v.
  const held = request.symmetry === 'symmetric' ? 0 : 1;
  const fixed = new Set<number>([held, 2 * (contourCount - 1) + held]);
  for (let k = 0; k < axisCount; k++) fixed.add(axisStart + 2 * k + held);
  if (request.support === 'free') {
    fixed.add(endStart + 1);
    if (held === 1) fixed.add(endStart);
  } else {
    for (let k = 0; k < endCount; k++) {
      fixed.add(endStart + 2 * k + 1);
      if (request.support === 'clamped') fixed.add(endStart + 2 * k);
    }
    if (held === 1) fixed.add(endStart);
  }
  allScalars.forEach((scalar, s) => {
    if (!scalars.includes(scalar)) fixed.add(2 * contourCount + s);
  });
  const listed = [
    ...Array.from({ length: 2 * contourCount }, (_, dof) => dof),
    ...scalars.map((scalar) => 2 * contourCount + allScalars.indexOf(scalar)),
  ];
  const kept = listed.filter((dof) => !fixed.has(dof));
  const small = factorize(
    {
      dofCount: order,
      offsets: Int32Array.of(0, order),
      dofs: Int32Array.from({ length: order }, (_, dof) => dof),
      matrices: factor.schur,
      x: Float64Array.of(0),
      y: Float64Array.of(0),
    },
    { retained: kept, fixed: [...fixed] },
  );
  const size = listed.length;
  const place = kept.map((dof) => listed.indexOf(dof));
  const matrix = new Float64Array(size * size);
  place.forEach((row, i) => {
    place.forEach((column, j) => {
      matrix[row * size + column] = small.schur[i * kept.length + j]!;
    });
  });
  return {
    ...request,
    scalars,
    matrix,
    kept(a, columns) {
      const values = new Float64Array(kept.length * columns);
      place.forEach((from, i) => {
        values.set(a.subarray(from * columns, (from + 1) * columns), i * columns);
      });
      return small.expand(values, columns);
    },
  };
}

function checkGeometry(joint: TeeJoint, contour: ControlContour): void {
  const t = layupThickness(joint.overlaminate);
  const depth = layupThickness(joint.skin);
  const fail = (path: string, expected: string, received: number, remedy: string) => {
    throw new InputError({ path: `host.${path}`, expected, received: String(received), remedy });
  };
  if (!(t > 0)) fail('overlaminate', 'a thickness above 0 mm', t, 'give at least one ply');
  if (!(depth > 0)) fail('skin.thickness', 'above 0 mm', depth, 'give the skin a thickness');
  if (!(joint.bendRadius > t))
    fail(
      'bendRadius',
      `above the overlaminate's thickness of ${t} mm`,
      joint.bendRadius,
      'enlarge it or take off plies',
    );
  if (!(joint.webHeight > 0)) fail('web.height', 'above 0 mm', joint.webHeight, 'give the web a height');
  if (!(joint.footLength > 0)) fail('foot.length', 'above 0 mm', joint.footLength, 'give the foot a length');
  const reach = joint.bendRadius + joint.footLength;
  if (!(joint.skinHalfSpan >= reach))
    fail(
      'skin.halfSpan',
      `at least bendRadius + foot.length = ${reach} mm`,
      joint.skinHalfSpan,
      'enlarge it or shorten the foot',
    );
  if (contour.bendRadius !== joint.bendRadius)
    fail('bendRadius', `the contour's ${contour.bendRadius} mm`, joint.bendRadius, 'make the contour for this joint');
}
