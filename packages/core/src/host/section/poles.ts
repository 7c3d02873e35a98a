import type { SectionBody } from './body.js';

/** Re-entrant corners turn by this at least, all that lies within an inset of each other taken together, rad. */
const leastTurn = Math.PI / 6;
/** Distance of a corner's first pole, in insets of the contour, and of each from the one before. */
const firstPole = 0.5;
const furtherBy = 2.2;
/** Lines of neighbouring corners cross. Poles nearer to each other than this, in their distance from the contour, are one: two fields that are alike there took peaks in three lobes 7 % off. */
const leastApart = 0.1;
/** The last lies no further off than this, in radii of the largest circle: polynomials tell what comes from beyond. */
const furthest = 1.2;

/**
 * Where fields of a filler with re-entrant corners have poles, mm: outside, along the line that halves each corner. The stress of a joint is singular in such a corner; inside
 * it goes on as a field that is cut there, and that polynomials tell badly (near a corner of 270 degrees an outline's exterior is so flat that eight
 * degrees leave 0.85 of an error, at any degree), poles that crowd towards the corner well: in the manner of Gopal & Trefethen, SIAM J. Numer. Anal. 57 (2019) 2074-2094. As the
 * contour keeps an inset from the corner, a few are enough: five in place of none take peaks beside the corner of an L from 13 to 0.3 % of the mesh.
 *
 * @param finely another behind each, all after the others
 */
export function polesOf(
  { file, rim, border, circle }: Pick<SectionBody, 'file' | 'rim' | 'border' | 'circle'>,
  inset: number,
  finely = false,
): readonly (readonly [x: number, y: number])[] {
  const corners = cornersOf(file, rim, inset);
  const poles: (readonly [number, number])[] = [];
  const addAlong = ({ at, outwards }: Corner, first: number) => {
    let before = 0;
    for (let far = first * inset; far <= furthest * circle.radius; far *= furtherBy) {
      const [x, y] = [at[0] + far * outwards[0], at[1] + far * outwards[1]];
      const away = -border.distance(x, y);
      // Where the line comes back to the filler another part of it is nearer than the corner.
      if (!(away > before)) break;
      before = away;
      const apart = leastApart * (away + inset);
      if (poles.every(([px, py]) => Math.hypot(px - x, py - y) > apart)) poles.push([x, y]);
    }
  };
  const firsts = finely ? [firstPole, firstPole * Math.sqrt(furtherBy)] : [firstPole];
  for (const first of firsts) for (const corner of corners) addAlong(corner, first);
  return poles;
}

interface Corner {
  readonly at: readonly [number, number];
  /** Unit vector that halves what is outside. */
  readonly outwards: readonly [number, number];
}

/** Places where the border turns away from the filler, within so short a stretch as an inset. */
function cornersOf({ x, y }: SectionBody['file'], rim: Int32Array, inset: number): readonly Corner[] {
  const count = rim.length;
  const node = (i: number) => rim[((i % count) + count) % count]!;
  const step = (i: number) => {
    const [from, to] = [node(i), node(i + 1)];
    return [x[to]! - x[from]!, y[to]! - y[from]!] as const;
  };
  const lengths = Array.from(rim, (_, i) => Math.hypot(...step(i)));
  const turns = Array.from(rim, (_, i) => {
    const [a, b] = [step(i - 1), step(i)];
    return Math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]);
  });
  const corners: Corner[] = [];
  for (let i = 0; i < count; i++) {
    if (turns[i]! >= 0) continue;
    // From the first turn of a stretch on.
    let turned = turns[i]!;
    let last = i;
    for (let k = i + 1, far = lengths[i]!; far <= inset && k < i + count; far += lengths[k % count]!, k++) {
      if (turns[k % count]! >= 0) continue;
      turned += turns[k % count]!;
      last = k;
    }
    if (turned > -leastTurn) continue;
    const [a, b] = [step(i - 1), step(last)];
    const normal = ([dx, dy]: readonly [number, number]) =>
      [dy / Math.hypot(dx, dy), -dx / Math.hypot(dx, dy)] as const;
    const [p, q] = [normal(a), normal(b)];
    const size = Math.hypot(p[0] + q[0], p[1] + q[1]);
    const [from, to] = [node(i), node(last)];
    const at = [(x[from]! + x[to]!) / 2, (y[from]! + y[to]!) / 2] as const;
    if (size > 0) corners.push({ at, outwards: [(p[0] + q[0]) / size, (p[1] + q[1]) / size] });
    i = Math.max(i, last);
  }
  return corners;
}
