import {
  addBlock,
  between,
  type CubicMeshBuilder,
  type Place,
  type PlaceOf,
  turn,
} from '../../../mesh/triangle/index.js';
import type { BorderDivision } from './division.js';
import type { BorderCorners } from './laminates.js';

/** The filler's three cusps, from the tips to where the unstructured triangles begin. */
export function addSlivers(
  builder: CubicMeshBuilder,
  R: number,
  { sliver, rightArc, leftArc }: BorderDivision,
  border: BorderCorners,
  zone: number,
): void {
  const last = sliver.length - 1;
  const arcAt = (angles: ArrayLike<number>, side: 1 | -1, u: number): Place => {
    const phi = between(angles, u);
    return [side * R * (1 - Math.sin(phi)), R * (1 - Math.cos(phi))];
  };
  /** One sliver between two rows of corners that meet in their first one. */
  const add = (a: readonly number[], b: readonly number[], atA: (u: number) => Place, atB: (u: number) => Place) => {
    const at: PlaceOf = (u, v) => {
      const [x, y] = atA(u);
      const [X, Y] = atB(u);
      return [x + v * (X - x), y + v * (Y - y)];
    };
    const columns = Array.from({ length: last }, (_, k) => [a[k + 1]!, b[k + 1]!]);
    addBlock(
      builder,
      columns,
      (u, v) => at(u + 1, v),
      () => zone,
    );
    const tip = [a[0]!, a[1]!, b[1]!] as const;
    const places = tip.map((corner) => builder.place(corner)) as [Place, Place, Place];
    if (turn(...places) > 0) builder.triangle(tip[0], tip[1], tip[2], zone);
    else builder.triangle(tip[0], tip[2], tip[1], zone);
  };
  const baseAt =
    (side: 1 | -1) =>
    (u: number): Place => [side * (R - between(sliver, u)), 0];
  add(border.base.toReversed(), border.rightArc, baseAt(1), (u) => arcAt(rightArc, 1, u));
  add(border.base, border.leftArc, baseAt(-1), (u) => arcAt(leftArc, -1, u));
  const downRight = rightArc.toReversed();
  const downLeft = leftArc.toReversed();
  add(
    border.rightArc.toReversed(),
    border.leftArc.toReversed(),
    (u) => arcAt(downRight, 1, u),
    (u) => arcAt(downLeft, -1, u),
  );
}
