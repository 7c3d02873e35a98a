import type { MeshedSection } from '@lumenfront/core';

/** Gmsh's numbers of a triangle of ten nodes, in the mesh's own order, and of a line of four: its ends first. */
const cubicTriangle = 21;
const cubicLine = 26;

/** A meshed section as MSH 4.1 text, mm: a physical surface to each zone, a physical curve to each named part of the border. */
export function toMsh({ x, y, triangles, zoneOf, zones, sides }: MeshedSection): string {
  const curves = Object.entries(sides);
  const box = [
    x.reduce((a, b) => Math.min(a, b)),
    y.reduce((a, b) => Math.min(a, b)),
    0,
    x.reduce((a, b) => Math.max(a, b)),
    y.reduce((a, b) => Math.max(a, b)),
    0,
  ].join(' ');
  const names = [
    ...curves.map(([name], k) => `1 ${k + 1} "${name}"`),
    ...zones.map((zone, k) => `2 ${curves.length + k + 1} "${zone}"`),
  ];
  let tag = 0;
  const block = (head: string, elements: readonly (readonly number[])[]) => [
    `${head} ${elements.length}`,
    ...elements.map((nodes) => `${++tag} ${nodes.map((node) => node + 1).join(' ')}`),
  ];
  const blocks = [
    ...curves.map(([, nodes], k) => {
      const count = nodes.length / 4;
      const lines = Array.from({ length: count }, (_, i) => [0, 3, 1, 2].map((at) => nodes[4 * i + at]!));
      return block(`1 ${k + 1} ${cubicLine}`, lines);
    }),
    ...zones.map((_, zone) => {
      const own = Array.from(zoneOf.keys()).filter((triangle) => zoneOf[triangle] === zone);
      return block(
        `2 ${zone + 1} ${cubicTriangle}`,
        own.map((triangle) => Array.from(triangles.subarray(10 * triangle, 10 * triangle + 10))),
      );
    }),
  ];
  const entity = (k: number, physical: number) => `${k + 1} ${box} 1 ${physical} 0`;
  return [
    ...['$MeshFormat', '4.1 0 8', '$EndMeshFormat'],
    ...['$PhysicalNames', names.length, ...names, '$EndPhysicalNames'],
    ...['$Entities', `0 ${curves.length} ${zones.length} 0`],
    ...curves.map((_, k) => entity(k, k + 1)),
    ...zones.map((_, k) => entity(k, curves.length + k + 1)),
    '$EndEntities',
    ...['$Nodes', `1 ${x.length} 1 ${x.length}`, `2 1 0 ${x.length}`],
    ...Array.from(x, (_, node) => node + 1),
    ...Array.from(x, (value, node) => `${short(value)} ${short(y[node]!)} 0`),
    '$EndNodes',
    ...['$Elements', `${blocks.length} ${tag} 1 ${tag}`, ...blocks.flat(), '$EndElements'],
    '',
  ].join('\n');
}

const short = (mm: number) => Number(mm.toPrecision(15));
