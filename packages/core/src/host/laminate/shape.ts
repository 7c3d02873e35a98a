import { rounded } from '../../input/index.js';
import type { HostShape, ShapeLayer, ShapePath, ShapePoint } from '../shape.js';
import { type LaminateJoint, plyBorders } from './laminate.js';
import { pocketForm } from './pocket.js';

/** Points along half a lens. */
const steps = 32;

/** What pictures and drawings show of a laminate. */
export function laminateShape(joint: LaminateJoint): HostShape {
  const form = pocketForm(joint);
  const { layup, width, pocket, row: isCell } = joint;
  const borders = plyBorders(layup);
  const a = form.halfWidth;
  const half = width / 2;
  const bent = pocket.made === 'drape';
  const inside = bent
    ? Array.from({ length: 2 * steps + 1 }, (_, k) => a * Math.sin((Math.PI / 2) * (k / steps - 1)))
    : [-a, a];
  const across = bent ? [-half, ...inside, half] : [-half, half];
  const row = (level: number, above: boolean, xs: readonly number[]): ShapePoint[] =>
    xs.map((x) => [x, form.place(x, level, above)]);
  const isCut = (ply: number) => pocket.made === 'cut' && ply >= pocket.first && ply < pocket.first + pocket.count;
  const isAbove = (ply: number) => ply >= (pocket.made === 'drape' ? pocket.below : pocket.first);
  /** Borders of the plies next to the pocket. */
  const [lowest, highest] =
    pocket.made === 'drape'
      ? [pocket.below - 1, pocket.below + 1]
      : [pocket.first - 1, pocket.first + pocket.count + 1];
  const isNext = (border: number) => border >= lowest && border <= highest;
  const layers = layup.flatMap(({ angle }, ply): ShapeLayer[] => {
    const [bottom, top] = [borders[ply]!, borders[ply + 1]!];
    const piece = (xs: readonly number[]): ShapeLayer => ({
      path: closed([...row(bottom, isAbove(ply), xs), ...row(top, isAbove(ply), xs).reverse()]),
      angle,
    });
    return isCut(ply) ? [piece([-half, -a]), piece([a, half])] : [piece(across)];
  });
  const [bottom, top] = [form.lower.at(0), form.upper.at(0)];
  const height = top - bottom;
  const thickness = form.place(0, borders.at(-1)!, true);
  const margin = 0.02 * width;
  const view = Math.min(half, 1.15 * a);
  return {
    room: closed([
      ...inside.map((x): ShapePoint => [x, form.lower.at(x)]),
      ...inside.toReversed().map((x): ShapePoint => [x, form.upper.at(x)]),
    ]),
    roomName: 'pocket',
    ...(isCell ? { note: `a cell of an endless row, pitch ${rounded(width)} mm; neighbours are mirror images` } : {}),
    roomBox: { xMin: -a, xMax: a, yMin: bottom, yMax: top },
    layers,
    lines: {
      layer: 'PLIES',
      arcs: [],
      straight: borders.flatMap((level, k) => {
        if (!isNext(k)) return [];
        const points = row(level, isAbove(k), bent ? [-view, ...inside, view] : [-view, view]);
        return points.slice(1).map((to, i) => [points[i]!, to] as const);
      }),
    },
    whole: { xMin: -half - margin, xMax: half + margin, yMin: -margin, yMax: thickness + margin },
    closeUp: { xMin: -view, xMax: view, yMin: bottom - 0.6 * height, yMax: top + 0.6 * height },
  };
}

function closed([from, ...rest]: readonly ShapePoint[]): ShapePath {
  return { from: from!, steps: rest.map((to) => ({ to })) };
}
