import type { MeshedSection } from '@lumenfront/core';
import { escapeMarkup } from '../markup.js';

/** Of a triangle of ten nodes, which VTK orders as the mesh does. */
const lagrangeTriangle = 69;

/**
 * A solved section as VTK's XML of an unstructured grid: cubic triangles; displacement and stress at the points, case by case, with their units in their
 * names; the zone of each triangle, named in the field data.
 */
export function toVtu({ x, y, trianglePoints, nodeOf, zoneOf, zones, cases }: MeshedSection): string {
  const count = zoneOf.length;
  const array = (type: string, name: string, values: Iterable<number>, components = 1) =>
    `<DataArray type="${type}" Name="${escapeMarkup(name)}" NumberOfComponents="${components}" format="ascii">\n${lines(values)}\n</DataArray>`;
  const pointData = Object.entries(cases).flatMap(([name, { displacement, stress }]) => [
    array(
      'Float64',
      `displacement in ${name}, mm`,
      spread(displacement, 2, ([u, v]) => [u!, v!, 0]),
      3,
    ),
    // VTK's order of a symmetric tensor: xx, yy, zz, xy, yz, xz.
    array(
      'Float64',
      `stress in ${name}, MPa`,
      spread(stress, 4, ([xx, yy, zz, xy]) => [xx!, yy!, zz!, xy!, 0, 0]),
      6,
    ),
  ]);
  return `<?xml version="1.0"?>
<VTKFile type="UnstructuredGrid" version="1.0" byte_order="LittleEndian">
<!-- Lengths in mm, stresses in MPa. Zones: ${zones.map((zone, i) => `${i} ${zone}`.replaceAll('--', '')).join('; ')}. -->
<UnstructuredGrid>
<Piece NumberOfPoints="${nodeOf.length}" NumberOfCells="${count}">
<PointData>
${pointData.join('\n')}
</PointData>
<CellData>
${array('Int32', 'zone', zoneOf)}
</CellData>
<Points>
${array(
  'Float64',
  'Points',
  [...nodeOf].flatMap((node) => [x[node]!, y[node]!, 0]),
  3,
)}
</Points>
<Cells>
${array('Int32', 'connectivity', trianglePoints)}
${array(
  'Int32',
  'offsets',
  Array.from(zoneOf, (_, i) => 10 * (i + 1)),
)}
${array(
  'UInt8',
  'types',
  Array.from(zoneOf, () => lagrangeTriangle),
)}
</Cells>
</Piece>
</UnstructuredGrid>
</VTKFile>
`;
}

function* spread(values: Float64Array, size: number, to: (part: Float64Array) => readonly number[]): Iterable<number> {
  for (let at = 0; at < values.length; at += size) yield* to(values.subarray(at, at + size));
}

/** Ten numbers to a line, nine digits. */
function lines(values: Iterable<number>): string {
  const texts = Array.from(values, (value) => String(Number(value.toPrecision(9))));
  return Array.from({ length: Math.ceil(texts.length / 10) }, (_, k) =>
    texts.slice(10 * k, 10 * k + 10).join(' '),
  ).join('\n');
}
