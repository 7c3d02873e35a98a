import { sectionStiffness } from '../../../material/index.js';
import {
  type CubicMesh,
  createCubicMeshBuilder,
  type EdgeCurve,
  madeFiner,
  type Zone,
} from '../../../mesh/triangle/index.js';
import { type LaminateJoint, plyBorders } from '../laminate.js';
import { type PocketForm, pocketForm } from '../pocket.js';
import {
  type Extent,
  extentOf,
  largestInPocket,
  type MeshedCrack,
  type Pocketed,
  pocketedColumns,
  sizedChannels,
} from './pocketed.js';
import { addPocketed } from './pocketed-mesh.js';

/**
 * The whole section of a laminate in cubic triangles, with channels or without. Boundary parts: 'channel', 'bottom', 'top',
 * 'left-end', 'right-end', and 'crack', sides inside from the pocket to where a crack ends after it has grown.
 *
 * Throws `InputError` where the channel does not lie in the pocket.
 */
export function laminateTriangles(
  joint: LaminateJoint,
  curves: readonly EdgeCurve[],
  coarseness: number,
  crack?: MeshedCrack,
): CubicMesh {
  const form = pocketForm(joint);
  const extent = extentOf(form, form, (x, y) => [x, y], curves);
  // Where sides come too close to each other, everything is made finer until they don't.
  return madeFiner(coarseness, (finer) => attempt({ joint, form, curves, extent, coarseness: finer, crack }));
}

interface Attempt {
  readonly joint: LaminateJoint;
  readonly form: PocketForm;
  readonly curves: readonly EdgeCurve[];
  readonly extent: Extent;
  readonly coarseness: number;
  readonly crack: MeshedCrack | undefined;
}

function attempt({ joint, form, curves, extent, coarseness, crack }: Attempt): CubicMesh | undefined {
  const { layup } = joint;
  const half = joint.width / 2;
  const largest = largestInPocket(form);
  const channels = sizedChannels(curves, form, form, coarseness, largest);
  const spec: Pocketed = {
    laminate: joint,
    form,
    place: (s, y) => [s, y],
    from: -half,
    to: half,
    channels,
    sizeAt: crack === undefined ? channels.at : finerAtMouth(channels.at, crack, form),
    extent,
    coarseness,
    crack,
  };
  const coarsest = 0.45 * plyBorders(layup).at(-1)! * coarseness;
  const columns = pocketedColumns(spec, () => coarsest);
  const builder = createCubicMeshBuilder();
  const zones: Zone[] = [
    {
      place: 'filler',
      layer: -1,
      material: sectionStiffness({ angle: 90, ply: joint.resin }),
      normal: { angle: Math.PI / 2 },
    },
    ...layup.map(
      (layer, k): Zone => ({
        place: 'laminate',
        layer: k,
        material: sectionStiffness(layer),
        normal: { angleAt: (x, y) => form.angle(x, y) + Math.PI / 2 },
      }),
    ),
  ];
  const corners = addPocketed(builder, spec, columns, { resin: 0, ply: (ply) => 1 + ply, breaks: [] });
  if (corners === undefined) return undefined;
  const name = (part: string, list: readonly number[]) => {
    for (let i = 0; i + 1 < list.length; i++) builder.side(part, list[i]!, list[i + 1]!);
  };
  name('bottom', corners.bottom);
  name('right-end', corners.right.corners);
  name('top', corners.top.toReversed());
  name('left-end', corners.left.corners.toReversed());
  if (crack !== undefined) {
    const end = form.halfWidth + crack.length + (crack.sides + 0.5) * crack.step;
    const far = (crack.end === 'left' ? columns.leftFar : columns.rightFar).filter((s) => Math.abs(s) < end);
    name('crack', corners.interfaces[crack.end][crack.side].slice(0, far.length));
  }
  return builder.finish(zones);
}

/** Where a crack begins, the resin and the plies beside it are as fine as its tip: stresses are singular there, too. */
function finerAtMouth(
  sizeAt: (x: number, y: number) => number,
  { end, side, mouth }: MeshedCrack,
  form: PocketForm,
): (x: number, y: number) => number {
  const x0 = end === 'left' ? -form.halfWidth : form.halfWidth;
  const y0 = form[side].at(x0);
  return (x, y) => Math.min(sizeAt(x, y), mouth + 0.5 * Math.hypot(x - x0, y - y0));
}
