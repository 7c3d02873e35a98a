import { placeIn, type SectionMesh, tangentAngle } from '../../mesh/quad/index.js';
import { anew, type Choose } from '../choices.js';
import {
  createRecovery,
  other,
  own,
  type Recovery,
  type RecoveryBuilder,
  spacedColumns,
  type Teller,
  whole,
} from '../condensed/index.js';
import type { LaminateJoint } from './laminate.js';
import type { LaminateMesh, LaminatePart } from './laminate-mesh.js';
import { pocketForm } from './pocket.js';

/** Section points, and their numbers in rows that follow each other along the section. */
export interface SectionRows {
  readonly recovery: Recovery;
  readonly rows: readonly (readonly number[])[];
}

/** Least distances between columns of points, in heights of the pocket: along the pocket, and where fields are smoother. */
const close = 0.06;
const wide = 0.2;

/** Beyond the pocket points go on for as many thicknesses of the laminate. */
const beyond = 2;

/** Places along an element where stresses are best, the Gauss points of its reduced rule (Barlow, Int. J. Numer. Meth. Eng. 10 (1976) 243-251). */
const alongElement = [-1 / Math.sqrt(3), 1 / Math.sqrt(3)] as const;

export type PocketElement = readonly [part: LaminatePart, column: number, row: number];

/** The section points of a meshed laminate, see `addPocketRows`. */
export function sectionRecovery(
  joint: LaminateJoint,
  { body, parts, plies }: LaminateMesh,
  choose: Choose = anew,
): SectionRows {
  const { mesh } = body;
  const builder = createRecovery(body);
  const rows = addPocketRows(joint, {
    builder,
    mesh,
    plies,
    parts,
    element: ([part, column, row]) => {
      const block = parts[part]!;
      return block.first + row * block.columns + column;
    },
    sign: 1,
    flat: (x, y) => [x, y],
    across: () => 0,
    place: 'laminate',
    layerOf: (ply) => ply,
    choose,
  });
  return { recovery: builder.recovery, rows };
}

/** One half of a meshed pocket, as it lies in its host. */
export interface PocketView {
  readonly builder: RecoveryBuilder;
  readonly mesh: SectionMesh;
  readonly plies: LaminateMesh['plies'];
  readonly parts: LaminateMesh['parts'];
  /** Number of an element; columns count from the pocket's middle outwards. */
  element(at: PocketElement): number;
  /** -1: elements run against their columns. */
  readonly sign: 1 | -1;
  /** Place in the flat laminate, from the pocket's middle and the bottom face. */
  flat(x: number, y: number): readonly [number, number];
  /** Direction along the laminate at a place, radians. */
  across(x: number, y: number): number;
  /** What points between plies are called. */
  readonly place: string;
  layerOf(ply: number): number;
  /** Which columns tell, and which points lie near enough. */
  readonly choose: Choose;
}

/**
 * Adds the section points of one half of a meshed pocket, and returns their numbers in rows. Along the pocket's border two in every element, of which normal and shear stress are the mean of
 * both sides and the tangential one is the resin's; just beyond it the plies' own; between plies at the middles of columns; in what of the
 * pocket lies beyond the control contour the middles of elements.
 */
export function addPocketRows(joint: Pick<LaminateJoint, 'layup' | 'pocket'>, view: PocketView): number[][] {
  const { builder, mesh, plies, parts, element, sign } = view;
  const form = pocketForm(joint);
  const height = form.upper.at(0) - form.lower.at(0);
  const rows = new Map<string, number[]>();
  const last = form.halfWidth + beyond * joint.layup.reduce((sum, { thickness }) => sum + thickness, 0);
  const add = (row: string, place: string, ply: number, angle: number | undefined, given: readonly Teller[]) => {
    const layer = ply < 0 ? ply : view.layerOf(ply);
    const tellers = given.map(([e, a, b, weights]): Teller => [e, sign * a, b, weights]);
    const [e, a, b] = tellers[0]!;
    const [x, y] = placeIn(mesh, e, a, b);
    if (view.choose(() => Math.abs(view.flat(x, y)[0]) > last)) return;
    const normalAngle = angle ?? tangentAngle(mesh.axes[tellers.at(-1)![0]]!, x, y) + Math.PI / 2;
    const list = rows.get(row) ?? [];
    list.push(builder.recovery.points.length);
    rows.set(row, list);
    builder.add({ place, x, y, normalAngle, layer }, tellers);
  };
  const columnsOf = (part: LaminatePart, row: number, distance: number) => {
    const block = parts[part];
    if (block === undefined) return [];
    return view.choose(() =>
      spacedColumns(block.columns, (column) => placeIn(mesh, element([part, column, row]), 0, 0), distance * height),
    );
  };

  // Along the pocket: resin in the first element, the ply in the second.
  const belowTop = plies.below.length - 1;
  const alongBorder = (name: 'below' | 'above') => {
    const [row, face, ply] = name === 'below' ? [belowTop, 1, plies.below.at(-1)!] : [0, -1, plies.above[0]!];
    const ringColumns = parts[`ring-${name}`]!.columns;
    const pocketRows = parts['pocket-end']?.rows ?? 0;
    const border = (where: 'channel' | 'pocket') => {
      for (const column of columnsOf(`${name}-${where}`, row, close)) {
        const outer = element([`${name}-${where}`, column, row]);
        const isRing = where === 'channel';
        const inner = element(
          isRing
            ? [`ring-${name}`, name === 'below' ? column : ringColumns - 1 - column, 0]
            : ['pocket-end', column, name === 'below' ? 0 : pocketRows - 1],
        );
        const innerFace = isRing ? -1 : -face;
        // On the axis a symmetric stress has its extreme.
        for (const a of isRing && column === 0 ? [-1, ...alongElement] : alongElement) {
          const [x, y] = placeIn(mesh, outer, sign * a, face);
          const at = sign * builder.nearer(inner, a, innerFace, x, y);
          add(`interface ${name}`, 'pocket-interface', ply, undefined, [
            [inner, at, innerFace, own],
            [outer, a, face, other],
          ]);
          add(`next ${name}`, 'next-ply', ply, undefined, [[outer, a, 0, whole]]);
        }
      }
    };
    border('channel');
    border('pocket');
  };
  alongBorder('below');
  alongBorder('above');

  if (parts['cut-plies'] !== undefined)
    plies.cut.forEach((ply, row) => {
      const outer = element(['cut-plies', 0, row]);
      const pocket = parts['pocket-end'];
      const inner: Teller =
        pocket === undefined
          ? [element(['ring-end', row, 0]), 0, -1, own]
          : [element(['pocket-end', pocket.columns - 1, row]), 1, 0, own];
      const [x, y] = placeIn(mesh, outer, -sign, 0);
      add('side', 'pocket-interface', ply, view.across(x, y), [inner, [outer, -1, 0, other]]);
    });

  // Between plies: each with the one below it.
  const between = (
    stack: string,
    columnPart: LaminatePart,
    pairs: readonly (readonly [upper: [LaminatePart, number], lower: [LaminatePart, number], ply: number])[],
  ) => {
    for (const column of columnsOf(columnPart, 0, wide))
      for (const [[upper, upperRow], [lower, lowerRow], ply] of pairs) {
        const [above, under] = [element([upper, column, upperRow]), element([lower, column, lowerRow])];
        add(`${stack} ${ply}`, view.place, ply, undefined, [
          [under, 0, 1, other],
          [above, 0, -1, own],
        ]);
      }
  };
  const inside = (part: LaminatePart, list: readonly number[]) =>
    list.flatMap((ply, row) =>
      row > 0 && list[row - 1] !== ply
        ? [[[part, row], [part, row - 1], ply] as [[LaminatePart, number], [LaminatePart, number], number]]
        : [],
    );
  for (const where of ['channel', 'pocket', 'far'] as const) {
    if (parts[`below-${where}`] === undefined) continue;
    between('plies', `below-${where}`, inside(`below-${where}`, plies.below));
    between('plies', `above-${where}`, inside(`above-${where}`, plies.above));
  }
  const isCut = parts['cut-plies'] !== undefined;
  if (isCut) between('plies', 'cut-plies', inside('cut-plies', plies.cut));
  between('tip', 'above-far', [
    isCut
      ? [['above-far', 0], ['cut-plies', plies.cut.length - 1], plies.above[0]!]
      : [['above-far', 0], ['below-far', belowTop], plies.above[0]!],
    ...(isCut
      ? [
          [['cut-plies', 0], ['below-far', belowTop], plies.cut[0]!] as [
            [LaminatePart, number],
            [LaminatePart, number],
            number,
          ],
        ]
      : []),
  ]);

  const pocket = parts['pocket-end'];
  if (pocket !== undefined)
    for (let row = 0; row < pocket.rows; row += 2)
      for (let column = 0; column < pocket.columns; column++)
        add(`filler ${row}`, 'filler', -1, Math.PI / 2, [[element(['pocket-end', column, row]), 0, 0, whole]]);
  return [...rows.values()];
}
