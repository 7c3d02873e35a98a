import { type CurvatureDesign, createCurveNodes, curvatureOutline } from '@lumenfront/core';

/** Largest distance between outlines of one shape that differ by a step of a front, in mean radii: far above what nodes leave open, below what shapes differ by. */
const apart = 0.08;
const looks = 64;
const nodes = 256;

/** Whether two outlines differ by more than a step along a front: somewhere the first is further from the second than that. */
export function areApart(one: CurvatureDesign, other: CurvatureDesign): boolean {
  const [from, to] = [placed(one, looks), placed(other, nodes)];
  const meanRadius = one.values[curvatureOutline(one.form).lengthAt]! / (2 * Math.PI);
  const limit = (apart * meanRadius) ** 2;
  return from.x.some((x, i) => {
    const y = from.y[i]!;
    return !to.x.some((other, k) => (other - x) ** 2 + (to.y[k]! - y) ** 2 <= limit);
  });
}

function placed({ form, values }: CurvatureDesign, count: number) {
  const at = createCurveNodes(count);
  curvatureOutline(form).place(values, at);
  return at;
}
