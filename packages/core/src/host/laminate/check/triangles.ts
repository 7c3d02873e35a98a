import { sectionStiffness } from '../../../material/index.js';
import { type CubicMesh, createCubicMeshBuilder, type EdgeCurve, type Zone } from '../../../mesh/triangle/index.js';
import { type LaminateJoint, plyBorders } from '../laminate.js';
import { type PocketForm, pocketForm } from '../pocket.js';
import { type Extent, extentOf, largestInPocket, type Pocketed, pocketedColumns, sizedChannels } from './pocketed.js';
import { addPocketed } from './pocketed-mesh.js';

/**
 * The whole section of a laminate in cubic triangles, with channels or without. Boundary parts: 'channel', 'bottom', 'top',
 * 'left-end', 'right-end'.
 *
 * Throws `InputError` where the channel does not lie in the pocket.
 */
export function laminateTriangles(joint: LaminateJoint, curves: readonly EdgeCurve[], coarseness: number): CubicMesh {
  const form = pocketForm(joint);
  const extent = extentOf(form, form, (x, y) => [x, y], curves);
  // Where sides come too close to each other, everything is made finer until they don't.
  for (let finer = coarseness; finer > coarseness / 8; finer *= 0.75) {
    const mesh = attempt(joint, form, curves, extent, finer);
    if (mesh !== undefined) return mesh;
  }
  throw new Error('the pocket cannot be meshed: sides stay too close to each other');
}

function attempt(
  joint: LaminateJoint,
  form: PocketForm,
  curves: readonly EdgeCurve[],
  extent: Extent,
  coarseness: number,
): CubicMesh | undefined {
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
    sizeAt: channels.at,
    extent,
    coarseness,
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
