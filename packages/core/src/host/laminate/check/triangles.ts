import { sectionStiffness } from '../../../material/index.js';
import {
  type CubicMesh,
  createCubicMeshBuilder,
  type EdgeCurve,
  madeFiner,
  type Place,
  type Zone,
} from '../../../mesh/triangle/index.js';
import { type LaminateJoint, plyBorders } from '../laminate.js';
import { type PocketForm, pocketForm } from '../pocket.js';
import {
  type Extent,
  extentOf,
  finerAtMouth,
  largestInPocket,
  type MeshedCrack,
  type Pocketed,
  pocketedColumns,
  sizedChannels,
} from './pocketed.js';
import { addPocketed } from './pocketed-mesh.js';

const flat = (x: number, y: number): Place => [x, y];

/**
 * The whole section of a laminate in cubic triangles, with channels or without. Boundary parts: 'channel', 'bottom', 'top',
 * 'left-end', 'right-end', and 'crack' (see `addPocketed`).
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
  const extent = extentOf(form, form, flat, curves);
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
    place: flat,
    from: -half,
    to: half,
    channels,
    sizeAt: finerAtMouth(channels.at, flat, form, crack),
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
  return builder.finish(zones);
}
