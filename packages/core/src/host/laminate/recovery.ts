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
  const book = rowBook(joint, view);
  addBorderRows(view, book, 'below');
  addBorderRows(view, book, 'above');
  addSideRows(view, book);
  addPlyRows(view, book);
  const pocket = view.parts['pocket-end'];
  if (pocket !== undefined)
    for (let row = 0; row < pocket.rows; row += 2)
      for (let column = 0; column < pocket.columns; column++)
        book.add(
          `filler ${row}`,
          'filler',
          -1,
          [[view.element(['pocket-end', column, row]), 0, 0, whole]],
          Math.PI / 2,
        );
  return [...book.rows.values()];
}

/** Rows of section points, and what adds to them. */
interface RowBook {
  readonly rows: Map<string, number[]>;
  /** Where no `angle` is given, the normal is that of the last teller's element. */
  add(row: string, place: string, ply: number, tellers: readonly Teller[], angle?: number): void;
  /** Columns that tell, `distance` pocket heights apart at most. */
  columnsOf(part: LaminatePart, row: number, distance: number): readonly number[];
}

function rowBook(joint: Pick<LaminateJoint, 'layup' | 'pocket'>, view: PocketView): RowBook {
  const { builder, mesh, parts, element, sign } = view;
  const form = pocketForm(joint);
  const height = form.upper.at(0) - form.lower.at(0);
  const last = form.halfWidth + beyond * joint.layup.reduce((sum, { thickness }) => sum + thickness, 0);
  const rows = new Map<string, number[]>();
  return {
    rows,
    add(row, place, ply, given, angle) {
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
    },
    columnsOf(part, row, distance) {
      const block = parts[part];
      if (block === undefined) return [];
      return view.choose(() =>
        spacedColumns(block.columns, (column) => placeIn(mesh, element([part, column, row]), 0, 0), distance * height),
      );
    },
  };
}

/** Along the pocket's lower or upper border: resin in the first element, the ply in the second. */
function addBorderRows(view: PocketView, book: RowBook, name: 'below' | 'above'): void {
  const { builder, mesh, plies, parts, element, sign } = view;
  const [row, face, ply] =
    name === 'below' ? [plies.below.length - 1, 1, plies.below.at(-1)!] : [0, -1, plies.above[0]!];
  const ringColumns = parts[`ring-${name}`]!.columns;
  const pocketRows = parts['pocket-end']?.rows ?? 0;
  for (const where of ['channel', 'pocket'] as const)
    for (const column of book.columnsOf(`${name}-${where}`, row, close)) {
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
        book.add(`interface ${name}`, 'pocket-interface', ply, [
          [inner, at, innerFace, own],
          [outer, a, face, other],
        ]);
        book.add(`next ${name}`, 'next-ply', ply, [[outer, a, 0, whole]]);
      }
    }
}

/** Along the side of a slot. */
function addSideRows({ mesh, plies, parts, element, sign, across }: PocketView, book: RowBook): void {
  if (parts['cut-plies'] === undefined) return;
  const pocket = parts['pocket-end'];
  plies.cut.forEach((ply, row) => {
    const outer = element(['cut-plies', 0, row]);
    const inner: Teller =
      pocket === undefined
        ? [element(['ring-end', row, 0]), 0, -1, own]
        : [element(['pocket-end', pocket.columns - 1, row]), 1, 0, own];
    const [x, y] = placeIn(mesh, outer, -sign, 0);
    book.add('side', 'pocket-interface', ply, [inner, [outer, -1, 0, other]], across(x, y));
  });
}

/** An interface between plies: the rows of elements above and below it, and the ply above. */
type PlyInterface = readonly [
  upper: readonly [LaminatePart, number],
  lower: readonly [LaminatePart, number],
  ply: number,
];

/** Between plies: each with the one below it; then between those below and above the pocket, beyond its tip. */
function addPlyRows({ plies, parts, element, place }: PocketView, book: RowBook): void {
  const add = (stack: string, part: LaminatePart, interfaces: readonly PlyInterface[]) => {
    for (const column of book.columnsOf(part, 0, wide))
      for (const [[upper, upperRow], [lower, lowerRow], ply] of interfaces) {
        const [above, under] = [element([upper, column, upperRow]), element([lower, column, lowerRow])];
        book.add(`${stack} ${ply}`, place, ply, [
          [under, 0, 1, other],
          [above, 0, -1, own],
        ]);
      }
  };
  const inside = (part: LaminatePart, list: readonly number[]) =>
    list.flatMap((ply, row): PlyInterface[] =>
      row > 0 && list[row - 1] !== ply ? [[[part, row], [part, row - 1], ply]] : [],
    );
  for (const where of ['channel', 'pocket', 'far'] as const) {
    if (parts[`below-${where}`] === undefined) continue;
    add('plies', `below-${where}`, inside(`below-${where}`, plies.below));
    add('plies', `above-${where}`, inside(`above-${where}`, plies.above));
  }
  const belowTop = ['below-far', plies.below.length - 1] as const;
  const aboveBottom = ['above-far', 0] as const;
  if (parts['cut-plies'] === undefined) add('tip', 'above-far', [[aboveBottom, belowTop, plies.above[0]!]]);
  else {
    add('plies', 'cut-plies', inside('cut-plies', plies.cut));
    add('tip', 'above-far', [
      [aboveBottom, ['cut-plies', plies.cut.length - 1], plies.above[0]!],
      [['cut-plies', 0], belowTop, plies.cut[0]!],
    ]);
  }
}
