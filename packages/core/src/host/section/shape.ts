import type { HostShape, ShapeLayer, ShapePath, ShapePoint } from '../shape.js';
import { rimPolygon, type SectionBody } from './body.js';
import { areaOf, type Box, boxOf } from './outline-border.js';

/** What pictures and drawings show of a section that is meshed elsewhere: its surfaces, by the sides of their elements. */
export function sectionShape({ file, topology, joint, filler, rim, box, circle }: SectionBody): HostShape {
  const layers = file.surfaces.flatMap((name, surface): ShapeLayer[] =>
    surface === filler
      ? []
      : bordersOf({ file, topology }, (of) => of === surface).map((path) => ({
          path,
          angle: joint.surfaces[name]!.angle,
        })),
  );
  const outer = bordersOf({ file, topology }, () => true);
  const whole = withMargin(boxOf({ x: file.x, y: file.y }), 0.02);
  const { x, y } = rimPolygon(file, rim);
  const height = whole.yMax - whole.yMin;
  return {
    room: closed(x.flatMap((px, i): ShapePoint[] => (i % 2 === 0 ? [[px, y[i]!]] : []))),
    roomName: 'filler',
    roomBox: box,
    layers,
    parts: outer.slice(0, 1).map((path) => ({
      name: 'section',
      path,
      nameAt: [(whole.xMin + whole.xMax) / 2, whole.yMin - 0.05 * height] as const,
    })),
    whole,
    closeUp: withMargin(box, 0.6 * Math.min(1, circle.radius / (box.xMax - box.xMin)) + 0.15),
  };
}

function withMargin({ xMin, xMax, yMin, yMax }: Box, share: number): Box {
  const margin = share * Math.max(xMax - xMin, yMax - yMin);
  return { xMin: xMin - margin, xMax: xMax + margin, yMin: yMin - margin, yMax: yMax + margin };
}

function closed([from, ...rest]: readonly ShapePoint[]): ShapePath {
  return { from: from!, steps: rest.map((to) => ({ to })) };
}

/** Outer borders of the surfaces that are meant, the largest first; holes are left out. */
function bordersOf(
  { file: { x, y }, topology }: Pick<SectionBody, 'file' | 'topology'>,
  isMeant: (surface: number) => boolean,
): ShapePath[] {
  const next = new Map<number, (readonly [middle: number, end: number])[]>();
  for (const { a, b, middle, left, right } of topology.sides.values()) {
    const within = isMeant(topology.surfaceOf(left));
    const beyond = right !== -1 && isMeant(topology.surfaceOf(right));
    if (within === beyond) continue;
    const [from, to] = within ? [a, b] : [b, a];
    next.set(from, [...(next.get(from) ?? []), [middle, to]]);
  }
  const loops: { readonly x: number[]; readonly y: number[] }[] = [];
  for (const start of next.keys()) {
    const loop = { x: [] as number[], y: [] as number[] };
    let at = start;
    for (let step = next.get(at)!.pop(); step !== undefined; step = next.get(at)?.pop()) {
      for (const node of [at, step[0]]) {
        loop.x.push(x[node]!);
        loop.y.push(y[node]!);
      }
      at = step[1];
    }
    if (loop.x.length > 2) loops.push(loop);
  }
  return loops
    .filter((loop) => areaOf(loop) > 0)
    .sort((a, b) => areaOf(b) - areaOf(a))
    .map((loop) => closed(loop.x.map((px, i): ShapePoint => [px, loop.y[i]!])));
}
