import { placeIn, tangentAngle } from '../../mesh/quad/index.js';
import { createRecovery, other, own, type Recovery, spacedColumns, type Teller, whole } from '../condensed/index.js';
import type { LaminateJoint } from './laminate.js';
import type { LaminateMesh, LaminatePart } from './laminate-mesh.js';
import type { LaminatePlace } from './places.js';
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

type Element = readonly [part: LaminatePart, column: number, row: number];

/**
 * The section points of a meshed laminate. Along the pocket's border two in every element, of which normal and shear stress are the mean of
 * both sides and the tangential one is the resin's; just beyond it the plies' own; between plies at the middles of columns; in what of the
 * pocket lies beyond the control contour the middles of elements.
 */
export function sectionRecovery(joint: LaminateJoint, { body, parts, plies }: LaminateMesh): SectionRows {
  const { mesh } = body;
  const form = pocketForm(joint);
  const height = form.upper.at(0) - form.lower.at(0);
  const builder = createRecovery(body);
  const rows = new Map<string, number[]>();
  const last = form.halfWidth + beyond * joint.layup.reduce((sum, { thickness }) => sum + thickness, 0);
  const element = ([part, column, row]: Element) => {
    const block = parts[part]!;
    return block.first + row * block.columns + column;
  };
  const add = (
    row: string,
    place: LaminatePlace,
    layer: number,
    angle: number | undefined,
    tellers: readonly Teller[],
  ) => {
    const [e, a, b] = tellers[0]!;
    const [x, y] = placeIn(mesh, e, a, b);
    if (x > last) return;
    const normalAngle = angle ?? tangentAngle(mesh.axes[tellers.at(-1)![0]]!, x, y) + Math.PI / 2;
    const list = rows.get(row) ?? [];
    list.push(builder.recovery.points.length);
    rows.set(row, list);
    builder.add({ place, x, y, normalAngle, layer }, tellers);
  };
  const columnsOf = (part: LaminatePart, row: number, distance: number) => {
    const block = parts[part];
    if (block === undefined) return [];
    return spacedColumns(
      block.columns,
      (column) => placeIn(mesh, element([part, column, row]), 0, 0),
      distance * height,
    );
  };

  // Along the pocket: resin in the first element, the ply in the second.
  const aboveRows = plies.above.length;
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
          const [x, y] = placeIn(mesh, outer, a, face);
          const at = builder.nearer(inner, a, innerFace, x, y);
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
      add('side', 'pocket-interface', ply, 0, [inner, [outer, -1, 0, other]]);
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
        add(`${stack} ${ply}`, 'laminate', ply, undefined, [
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
  void aboveRows;
  return { recovery: builder.recovery, rows: [...rows.values()] };
}
