import { placeIn, tangentAngle } from '../../../mesh/quad/index.js';
import { anew } from '../../choices.js';
import {
  createRecovery,
  other,
  own,
  type PointShare,
  type Recovery,
  type RecoveryBuilder,
  spacedColumns,
  type Teller,
  whole,
} from '../../condensed/index.js';
import { addPocketRows } from '../../laminate/index.js';
import type { SectionPoint } from '../../place.js';
import { judgedExtent } from '../extent.js';
import type { Beside } from './beside.js';
import type { PatchPart } from './patch.js';
import type { PocketSite, PocketTee } from './site.js';
import type { Element, LayeredRun, PocketTeeMesh } from './tee-mesh.js';

/** Section points in the joint's coordinates, and their numbers in rows that follow each other. */
export interface PocketRows {
  readonly recovery: Recovery;
  readonly rows: readonly (readonly number[])[];
}

/** Section points nearer to a cusp of the filler than this many bend radii are left out: stresses are singular there. */
export const cuspExclusion = 0.1;

/** Least distances between columns of section points, in bend radii: along the filler, and where fields are smoother. */
const close = 0.03;
const wide = 0.06;
/** In heights of the pocket: around a channel of known outline in it. */
const inPocket = 0.1;

/** Places along an element where stresses are best, as in a tee without pocket. */
const alongElement = [-1 / Math.sqrt(3), 1 / Math.sqrt(3)] as const;

/**
 * The section points of a whole tee with a pocket: of its laminates between plies (in the bend in their middles as well), of the filler at its
 * borders and in the middles of its elements, and those of the pocket. What lies beyond `judgedExtent` is left out.
 */
export function pocketTeeRecovery(
  joint: PocketTee,
  site: PocketSite,
  tee: PocketTeeMesh,
  beside?: Pick<Beside, 'addAroundChannel'>,
): PocketRows {
  const { body, parts, patch } = tee;
  const builder = createRecovery(body);
  const add = rowsAt(joint, builder, tee);
  for (const run of tee.runs) addRun(run, tee, joint, add);
  addBorders(joint, tee, builder, add);
  const { knownEdge } = tee;
  const apart = {
    close: close * joint.bendRadius,
    wide: wide * joint.bendRadius,
    inPocket: inPocket * (site.form.upper.at(0) - site.form.lower.at(0)),
  };
  if (knownEdge !== undefined) beside?.addAroundChannel(joint, tee, knownEdge, apart, add);
  for (const part of [
    'square-left',
    'square-right',
    'cusp-left',
    'cusp-right',
    'cusp-top-left',
    'cusp-top-right',
  ] as const)
    for (let row = 0; row < (parts[part]?.rows ?? 0); row++)
      for (const column of spaced([part, 0, row], tee, wide * joint.bendRadius))
        add(`${part} ${row}`, 'joint-filler', -1, undefined, [[numberOf(tee, [part, column, row]), 0, 0, whole]]);
  const rows = add.rows();
  for (const half of ['left', 'right'] as const)
    rows.push(
      ...addPocketRows(site.laminate, {
        builder,
        mesh: body.mesh,
        plies: patch.mesh.plies,
        parts: patch.mesh.parts,
        element: ([name, column, row]) => {
          const part: PatchPart = `${half} ${name}`;
          const { columns } = parts[part]!;
          return numberOf(tee, [part, half === 'right' ? column : columns - 1 - column, row]);
        },
        sign: half === 'right' ? 1 : -1,
        flat: (x, y) => site.unfold(...site.toFrame(x, y)),
        across: (x, y) => {
          const [s, level] = site.unfold(...site.toFrame(x, y));
          return site.lean(s, level) + site.turn;
        },
        place: 'pocket-plies',
        layerOf: site.layerOf,
        choose: anew,
      }),
    );
  return { recovery: builder.recovery, rows };
}

/** Adds a point to a row unless it is left out. */
export type AddPoint = ((
  row: string,
  place: string,
  layer: number,
  normalAngle: number | undefined,
  tellers: readonly Teller[],
) => void) & {
  /** Of which other elements than quadrilaterals tell. */
  told(row: string, point: SectionPoint, shares: readonly PointShare[]): void;
  rows(): number[][];
};

function rowsAt(joint: PocketTee, builder: RecoveryBuilder, { body }: PocketTeeMesh): AddPoint {
  const { bendRadius: R } = joint;
  const extent = judgedExtent(joint);
  const rows = new Map<string, number[]>();
  const isLeftOut = (x: number, y: number) =>
    [
      [R, 0],
      [-R, 0],
      [0, R],
    ].some(([tipX, tipY]) => Math.hypot(x - tipX!, y - tipY!) < cuspExclusion * R) ||
    y > Math.max(R, extent.web) ||
    Math.abs(x) > (y < 0 ? extent.skin : extent.foot);
  const follow = (row: string) => {
    const list = rows.get(row) ?? [];
    list.push(builder.recovery.points.length);
    rows.set(row, list);
  };
  const add = (
    row: string,
    place: string,
    layer: number,
    normalAngle: number | undefined,
    tellers: readonly Teller[],
  ) => {
    const [e, a, b] = tellers[0]!;
    const [x, y] = placeIn(body.mesh, e, a, b);
    if (isLeftOut(x, y)) return;
    follow(row);
    const angle = normalAngle ?? tangentAngle(body.mesh.axes[tellers.at(-1)![0]]!, x, y) + Math.PI / 2;
    builder.add({ place, x, y, normalAngle: angle, layer }, tellers);
  };
  const told: AddPoint['told'] = (row, point, shares) => {
    if (isLeftOut(point.x, point.y)) return;
    follow(row);
    builder.addTold(point, shares);
  };
  return Object.assign(add, { told, rows: () => [...rows.values()] });
}

const numberOf = ({ parts }: PocketTeeMesh, [part, column, row]: Element): number => {
  const block = parts[part]!;
  return block.first + row * block.columns + column;
};

/** Columns of a row at least `distance` apart. */
const spaced = ([part, , row]: Element, tee: PocketTeeMesh, distance: number) =>
  spacedColumns(
    tee.parts[part]!.columns,
    (column) => placeIn(tee.body.mesh, numberOf(tee, [part, column, row]), 0, -1),
    distance,
  );

/**
 * Between the plies of a run (normal and shear stress the mean of both sides, tangential the outer one's), in the bend in their middles as
 * well. Of the skin the middles of its rows, which tell more exactly what goes over its largest value within them.
 */
function addRun({ part, place, layers }: LayeredRun, tee: PocketTeeMesh, joint: PocketTee, add: AddPoint): void {
  const R = joint.bendRadius;
  const at = (column: number, row: number) => numberOf(tee, [part, column, row]);
  for (const column of spaced([part, 0, 0], tee, wide * R))
    layers.forEach((layer, row) => {
      if (place === 'skin') {
        add(`${part} ${row}`, place, layer, undefined, [[at(column, row), 0, 0, whole]]);
        return;
      }
      if (row > 0 && layers[row - 1] === layer) return;
      if (row > 0)
        add(`${part} ${row}`, place, layer, undefined, [
          [at(column, row - 1), 0, 1, other],
          [at(column, row), 0, -1, own],
        ]);
      if (place !== 'bend') return;
      const rows = layers.filter((of) => of === layer).length;
      add(`${part} ${row} middle`, place, layer, undefined, [
        [at(column, row + Math.floor((rows - 1) / 2)), 0, rows % 2 === 0 ? 1 : 0, whole],
      ]);
    });
}

/** The filler against skin and bends: normal and shear stress the mean of both sides, tangential the filler's. */
function addBorders(joint: PocketTee, tee: PocketTeeMesh, builder: RecoveryBuilder, add: AddPoint): void {
  const R = joint.bendRadius;
  const { mesh } = tee.body;
  for (const [name, pairs] of Object.entries(tee.interfaces ?? {})) {
    const isBase = name === 'base';
    let last: readonly [number, number] | undefined;
    for (const [inner, outer] of pairs) {
      const [e, laminate] = [numberOf(tee, inner), numberOf(tee, outer)];
      // The skin touches with its top, a bend with its first row, the filler with its last row where it lies inside of it.
      const face = isBase ? 1 : -1;
      const innerFace = inner[2] === 0 ? -1 : 1;
      const here = placeIn(mesh, laminate, 0, face) as [number, number];
      if (last !== undefined && Math.hypot(here[0] - last[0], here[1] - last[1]) < close * R) continue;
      last = here;
      const isRun = tee.runs.some(({ part }) => part === outer[0]);
      const place = !isRun ? 'joint-pocket' : isBase ? 'joint-base' : 'joint-arc';
      for (const a of alongElement) {
        const [x, y] = placeIn(mesh, laminate, a, face);
        const sideX = name === 'left' ? -R : R;
        add(`${name} ${place}`, place, -1, isBase ? Math.PI / 2 : Math.atan2(R - y!, sideX - x!), [
          [e, builder.nearer(e, a, innerFace, x!, y!), innerFace, own],
          [laminate, a, face, other],
        ]);
      }
    }
  }
}
