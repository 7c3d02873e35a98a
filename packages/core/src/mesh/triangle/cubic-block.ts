import type { CubicMeshBuilder, Place } from './cubic-mesh.js';

/** A place in a block by its column and row, which need not be whole. */
export type PlaceOf = (column: number, row: number) => Place;

/** Linear interpolation in a list at index `u`. */
export function between(list: ArrayLike<number>, u: number): number {
  const i = Math.min(Math.floor(u), list.length - 2);
  return list[i]! + (u - i) * (list[i + 1]! - list[i]!);
}

/** Twice the signed area of a triangle. */
export function turn([ax, ay]: Place, [bx, by]: Place, [cx, cy]: Place): number {
  return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
}

/** Fills a grid of corners (`columns` of equally many) with pairs of triangles, shaped by `at`. */
export function addBlock(
  builder: CubicMeshBuilder,
  columns: readonly (readonly number[])[],
  at: PlaceOf,
  zoneOfRow: (row: number) => number,
): void {
  const rows = columns[0]!.length;
  const turned = turn(at(0, 0), at(1, 0), at(1, 1)) < 0;
  for (let i = 0; i < columns.length; i++)
    for (let j = 0; j < rows; j++) {
      const here = columns[i]![j]!;
      const [next, above] = [columns[i + 1], columns[i]![j + 1]];
      if (next !== undefined) builder.curve(here, next[j]!, (f) => at(i + f, j));
      if (above !== undefined) builder.curve(here, above, (f) => at(i, j + f));
      if (next !== undefined && above !== undefined) builder.curve(here, next[j + 1]!, (f) => at(i + f, j + f));
    }
  // Triangles come after all sides have their shapes.
  for (let i = 0; i + 1 < columns.length; i++)
    for (let j = 0; j + 1 < rows; j++) {
      const here = columns[i]![j]!;
      const across = columns[i + 1]![j + 1]!;
      const near = columns[i + 1]![j]!;
      const far = columns[i]![j + 1]!;
      const zone = zoneOfRow(j);
      const nearMiddle = at(i + 2 / 3, j + 1 / 3);
      const farMiddle = at(i + 1 / 3, j + 2 / 3);
      if (turned) {
        builder.triangle(here, across, near, zone, nearMiddle);
        builder.triangle(here, far, across, zone, farMiddle);
      } else {
        builder.triangle(here, near, across, zone, nearMiddle);
        builder.triangle(here, across, far, zone, farMiddle);
      }
    }
}
