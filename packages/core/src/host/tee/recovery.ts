import { layupThickness } from '../../material/index.js';
import { placeIn, tangentAngle } from '../../mesh/quad/index.js';
import { createRecovery, other, own, type Recovery, spacedColumns, type Teller, whole } from '../condensed/index.js';
import type { SectionPoint } from '../place.js';
import type { TeeJoint } from './tee.js';
import type { TeeMesh, TeePart } from './tee-mesh.js';

/** Section points nearer to a cusp of the filler than this many bend radii are left out (0.3 mm for a radius of 5 mm). */
export const cuspExclusion = 0.06;

/** Least distances between columns of section points, in bend radii: next to the filler, and where fields are smoother. */
const close = 0.018;
const wide = 0.04;
const wider = 0.08;

/** Least distance of rows of section points in the skin, below its three uppermost, in skin thicknesses. */
const skinDepths = 0.1;

/** Places along an element where stresses are best, the Gauss points of its reduced rule (Barlow, Int. J. Numer. Meth. Eng. 10 (1976) 243-251). */
const alongElement = [-1 / Math.sqrt(3), 1 / Math.sqrt(3)] as const;

/**
 * The section points of a meshed tee. Columns of points stand at the middles of element columns. In bend, foot and web each
 * layer has one at its filler-side face, in the bend another at mid-thickness; the skin has rows of them
 * over all of its depth, the filler the middles of its elements. Normal and shear stress at a face are the mean of both sides (they are continuous); tangential stress is
 * the outer layer's own, at the filler's two interfaces the filler's. Closest columns next to the filler. The foot's last thickness and the
 * web beyond two thicknesses are left out (run-out and load introduction are not modelled in detail), and so is what is nearer
 * to a cusp than `cuspExclusion`.
 */
export function sectionRecovery(joint: TeeJoint, tee: TeeMesh): Recovery {
  const { body, parts } = tee;
  const { mesh } = body;
  const R = joint.bendRadius;
  const t = layupThickness(joint.overlaminate);

  const element = (part: TeePart, column: number, row: number) => {
    const block = parts[part]!;
    return block.first + row * block.columns + column;
  };
  const builder = createRecovery(body);
  const add = (place: SectionPoint['place'], layer: number, normalAngle: number, sides: readonly Teller[]) => {
    const [first, a, b] = sides[0]!;
    const [x, y] = placeIn(mesh, first, a, b);
    if (Math.hypot(x - R, y) < cuspExclusion * R || Math.hypot(x, y - R) < cuspExclusion * R) return;
    if (y > R + 2 * t || x > R + joint.footLength - t) return;
    builder.add({ place, x, y, normalAngle, layer }, sides);
  };
  const { nearer } = builder;

  /** The points at one column of the layers from `first` to before `end`. */
  const throughLayers = (part: 'web' | 'bend' | 'foot', column: number, first = 0, end = Infinity) => {
    const layers = tee.overlaminateLayers;
    layers.forEach((layer, row) => {
      if (layer < first || layer >= end || (row > 0 && layers[row - 1] === layer)) return;
      const rows = layers.filter((of) => of === layer).length;
      const e = element(part, column, row);
      const [x, y] = placeIn(mesh, e, 0, -1);
      const normalAngle = tangentAngle(mesh.axes[e]!, x, y) + Math.PI / 2;
      const below: readonly Teller[] = row === 0 ? [] : [[element(part, column, row - 1), 0, 1, other]];
      add(part, layer, normalAngle, [[e, 0, -1, row === 0 ? whole : own], ...below]);
      if (part !== 'bend') return;
      const middle = element(part, column, row + Math.floor((rows - 1) / 2));
      add(part, layer, normalAngle, [[middle, 0, rows % 2 === 1 ? 0 : 1, whole]]);
    });
  };

  const columnsOf = (part: TeePart, row: number, distance: number) =>
    spacedColumns(parts[part]!.columns, (column) => placeIn(mesh, element(part, column, row), 0, -1), distance * R);
  for (const column of columnsOf('web', 0, wider)) throughLayers('web', column);
  for (const column of columnsOf('bend', 0, close)) throughLayers('bend', column, 0, 1);
  for (const column of columnsOf('bend', 0, wide)) throughLayers('bend', column, 1);
  for (const column of columnsOf('foot', 0, wider)) throughLayers('foot', column);

  const skinTop = tee.skinLayers.length - 1;
  // Next to the filler stress falls fast, below it shear goes over its largest value smoothly.
  const skinRows: number[] = [];
  let last = Number.POSITIVE_INFINITY;
  for (let row = skinTop; row >= 0; row--) {
    const y = placeIn(mesh, element('skin-filler', 0, row), 0, 0)[1];
    if (skinRows.length >= 3 && row > 0 && last - y < skinDepths * layupThickness(joint.skin)) continue;
    skinRows.push(row);
    last = y;
  }
  for (const part of ['skin-filler', 'skin-foot'] as const)
    for (const column of columnsOf(part, skinTop, wider))
      for (const row of skinRows)
        add('skin', tee.skinLayers[row]!, Math.PI / 2, [[element(part, column, row), 0, 0, whole]]);

  // The filler's border elements in the order of the bend's columns (from the top) and of the skin's.
  const alongArc: [TeePart, number, number][] = [];
  const alongBase: [TeePart, number, number][] = [];
  const push = (list: [TeePart, number, number][], part: TeePart, row: number) => {
    for (let column = 0; column < parts[part]!.columns; column++) list.push([part, column, row]);
  };
  push(alongBase, 'ring-base', 0);
  push(alongBase, 'ring-tip-below', 0);
  push(alongBase, 'cusp-bottom', 0);
  push(alongArc, 'cusp-bottom', parts['cusp-bottom']!.rows - 1);
  alongArc.reverse();
  for (const part of ['ring-tip-above', 'ring-side', 'ring-top', 'cusp-top'] as const) push(alongArc, part, 0);
  alongArc.reverse();
  for (const column of columnsOf('bend', 0, close)) {
    const [part, at, row] = alongArc[column]!;
    const e = element(part, at, row);
    const bend = element('bend', column, 0);
    const face = part === 'cusp-bottom' ? 1 : -1;
    for (const a of alongElement) {
      const [x, y] = placeIn(mesh, bend, a, -1);
      add('arc-interface', -1, Math.atan2(R - y, R - x), [
        [e, nearer(e, a, face, x, y), face, own],
        [bend, a, -1, other],
      ]);
    }
  }
  for (const column of columnsOf('skin-filler', skinTop, close)) {
    const [part, at, row] = alongBase[column]!;
    const e = element(part, at, row);
    const skin = element('skin-filler', column, skinTop);
    // On the axis a symmetric stress has its extreme.
    for (const a of column === 0 ? [-1, ...alongElement] : alongElement) {
      const [x, y] = placeIn(mesh, skin, a, 1);
      add('base-interface', -1, Math.PI / 2, [
        [e, nearer(e, a, -1, x, y), -1, own],
        [skin, a, 1, other],
      ]);
    }
  }
  for (const part of [
    'ring-base',
    'ring-tip-below',
    'ring-tip-above',
    'ring-side',
    'ring-top',
    'cusp-bottom',
    'cusp-top',
  ] as const)
    for (const column of columnsOf(part, 0, wide))
      for (let row = 0; row < parts[part]!.rows; row++)
        add('filler', -1, Math.PI / 2, [[element(part, column, row), 0, 0, whole]]);

  return builder.recovery;
}
