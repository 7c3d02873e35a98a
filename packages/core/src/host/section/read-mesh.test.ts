import { describe, expect, it } from 'vitest';
import { discInSheet, meshText } from '../../../../../test/fixtures/mesh-text.js';
import { MeshFileError } from './mesh-file.js';
import { meshSizeLimit, mostNodes, readMesh } from './read-mesh.js';
import { topologyOf } from './topology.js';

const disc = discInSheet({ radius: 1, wrap: 0.2, half: 3, around: 16, rows: 3 });
const text = meshText(disc);

describe('a mesh file', () => {
  it('is read with its surfaces, curves and both kinds of elements', () => {
    const { x, quads, triangles, surfaces, curves } = readMesh(text);
    expect(x).toHaveLength(disc.x.length);
    expect(surfaces).toEqual(['filler', 'wrap', 'sheet']);
    expect(quads).toHaveLength(9 * 16 * 5);
    expect(triangles).toHaveLength(6 * 16 * 3);
    expect([...curves.keys()]).toEqual(['seam', 'right', 'top', 'left', 'bottom']);
    expect(curves.get('seam')).toHaveLength(3 * 16);
    expect(() => topologyOf(readMesh(text))).not.toThrow();
  });

  it('gets the middle of a quadrilateral that has none, where its map puts it', () => {
    const { x, y, quads } = readMesh(
      meshText(discInSheet({ radius: 1, wrap: 0.2, half: 3, around: 16, rows: 3, nodes: 8 })),
    );
    for (let e = 0; e < quads.length / 9; e++)
      for (const v of [x, y]) {
        const at = (i: number) => v[quads[9 * e + i]!]!;
        const middle = (at(1) + at(3) + at(5) + at(7)) / 2 - (at(0) + at(2) + at(6) + at(8)) / 4;
        expect(at(4)).toBeCloseTo(middle, 12);
      }
  });

  it('may run its elements clockwise', () => {
    const turned = {
      ...disc,
      faces: disc.faces.map(({ nodes, surface }) => ({
        surface,
        nodes: (nodes.length === 6 ? [0, 2, 1, 5, 4, 3] : [0, 3, 2, 1, 7, 6, 5, 4, 8]).map((i) => nodes[i]!),
      })),
    };
    expect(readMesh(meshText(turned)).triangles).toEqual(readMesh(text).triangles);
  });

  const lineOf = (part: string, of = text) => of.split('\n').findIndex((line) => line.includes(part)) + 1;
  it.each([
    ['another version', text.replace('4.1 0 8', '2.2 0 8'), 2, /version 4.1, received 2.2/],
    ['binary', text.replace('4.1 0 8', '4.1 1 8'), 2, /text, received a binary file/],
    ['no mesh', 'title: Tee\n', 1, /MSH 4.1/],
    ['nothing', '', undefined, /\$Nodes and \$Elements, received an empty file/],
    ['first order', text.replace(/^2 1 9 /m, '2 1 2 '), lineOf('2 1 9 '), /first order.*second order/],
    ['cubic elements', text.replace(/^2 1 9 /m, '2 1 21 '), lineOf('2 1 9 '), /kind 21/],
    ['a number too few', text.replace(/^1 (\d+) 1 \1$/m, '1 9 1 9'), undefined, /9 nodes, as announced/],
    [
      'a node that is missing',
      text.replace(/ (\d+)\n\$EndElements/, ' 999999\n$EndElements'),
      undefined,
      /node 999999/,
    ],
    ['a name twice', text.replace('"right"', '"left"'), undefined, /"left" twice/],
    ['a surface without name', text.replace('2 6 "filler"', '2 66 "filler"'), undefined, /surface 1 without a name/],
    [
      'a bent plane',
      text.replace(/ 0\n\$EndNodes/, ' 0.5\n$EndNodes'),
      lineOf('$EndNodes') - 1,
      /z = 0.*received z = 0.5/,
    ],
    ['too much', text.replace(/^1 (\d+) 1 \1$/m, `1 ${mostNodes + 1} 1 9`), undefined, /at most 60000 nodes/],
    ['what is cut off', text.slice(0, text.indexOf('$EndElements') - 40), undefined, /cut off|damaged|nodes/],
    ['a section twice', `${text}$Nodes\n`, undefined, /each section once/],
  ])('is refused with line and remedy: %s', (_, broken, line, message) => {
    let fault: MeshFileError | undefined;
    try {
      readMesh(broken);
    } catch (error) {
      fault = error as MeshFileError;
    }
    expect(fault).toBeInstanceOf(MeshFileError);
    expect(fault!.message).toMatch(message);
    if (line !== undefined) expect(fault!.fault.line).toBe(line);
    expect(fault!.fault.remedy.length).toBeGreaterThan(10);
  });

  /** A point, a side and a triangle, with a volume's name and a section of its writer's own. */
  const one = `$MeshFormat
4.1 0 8
$EndMeshFormat
$Remarks
anything
$EndRemarks
$PhysicalNames
4
0 3 "corner"
1 1 "side"
2 2 "filler"
3 9 "body"
$EndPhysicalNames
$Entities
1 1 1 0
1 0 0 0 1 3
1 0 0 0 1 0 0 1 1 0
1 0 0 0 1 1 0 1 2 0
$EndEntities
$Nodes
1 6 1 6
2 1 0 6
1
2
3
4
5
6
0 0 0
1 0 0
0 1 0
0.5 0 0
0.5 0.5 0
0 0.5 0
$EndNodes
$Elements
3 3 1 3
0 1 15 1
1 1
1 1 8 1
2 1 2 4
2 1 9 1
3 1 2 3 4 5 6
$EndElements
`;

  it('keeps what surfaces and curves use, whatever else is in it', () => {
    const { x, y, triangles, surfaces, curves } = readMesh(one);
    expect([[...x], [...y]]).toEqual([
      [0, 1, 0, 0.5, 0.5, 0],
      [0, 0, 1, 0, 0.5, 0.5],
    ]);
    expect([...triangles]).toEqual([0, 1, 2, 3, 4, 5]);
    expect(surfaces).toEqual(['filler']);
    expect([...curves]).toEqual([['side', Int32Array.of(0, 1, 3)]]);
  });

  const elements = one.slice(one.indexOf('$Elements'));
  it.each([
    ['longer than is read', ' '.repeat(meshSizeLimit + 1), /at most 32 MiB, received 32\.0 MiB.*more coarsely/],
    [
      'a name without quotation marks',
      one.replace('"side"', 'side'),
      /dimension, number and "name", received 1 1 side/,
    ],
    [
      'names that end early',
      one.slice(0, one.indexOf('2 2 "filler"')),
      /dimension, number and "name", received the end of the file/,
    ],
    ['a count that is none', one.replace('\n4\n0 3', '\n-1\n0 3'), /a number of names, received -1/],
    ['a section that goes on', one.replace('\n4\n0 3', '\n3\n0 3'), /\$EndPhysicalNames after .*received 3 9 "body"/],
    [
      'a section without its end',
      one.slice(0, one.indexOf('$EndElements')),
      /\$EndElements after .*the end of the file/,
    ],
    [
      'a foreign section without its end',
      one.slice(0, one.indexOf('$EndRemarks')),
      /\$EndRemarks, received the end of the file/,
    ],
    ['parts', one.replaceAll('Remarks', 'PartitionedEntities'), /a mesh in one piece.*without partitions/],
    ['nothing after a header', one.slice(0, one.indexOf('\n1 6 1 6') + 1), /received the end of the file.*cut off/],
    ['a node twice', one.replace('\n3\n4\n', '\n3\n3\n'), /each node once, received node 3 twice/],
    ['fewer nodes than announced', one.replace('1 6 1 6', '1 7 1 7'), /7 nodes, as announced, received 6/],
    [
      'elements before nodes',
      one.replace(/\$Entities[\s\S]*\$EndNodes\n/, ''),
      /\$Entities and \$Nodes before \$Elements/,
    ],
    [
      'nodes of an element too many',
      one.replace('3 1 2 3 4 5 6', '3 1 2 3 4 5 6 6'),
      /an element of 6 nodes, received 7 nodes/,
    ],
    ['elements fewer than announced', one.replace('3 3 1 3', '3 4 1 4'), /4 elements, as announced, received 3/],
    [
      'no element of a surface',
      one.replace(elements, '$Elements\n1 1 1 1\n1 1 8 1\n2 1 2 4\n$EndElements\n'),
      /elements of surfaces, received none/,
    ],
    ['a volume', one.replace('2 1 9 1', '3 1 9 1'), /a plane mesh, received elements of a volume/],
    [
      'a surface with two names',
      one
        .replace('1 1 0 1 2 0', '1 1 0 2 2 4 0')
        .replace('"side"', '"side"\n2 4 "other"')
        .replace('\n4\n0 3', '\n5\n0 3'),
      /surface 1 with the names filler, other/,
    ],
    ['a surface that no entity tells', one.replace('2 1 9 1', '2 8 9 1'), /surface 8 without a name/],
    ['an element without area', one.replace('0 1 0\n', '2 0 0\n'), /elements with an area, received element 3 without/],
    [
      'a curve beside the surfaces',
      one
        .replace('1 6 1 6\n2 1 0 6\n', '1 7 1 7\n2 1 0 7\n7\n')
        .replace('0 0 0\n1 0 0', '9 9 0\n0 0 0\n1 0 0')
        .replace('2 1 2 4', '2 1 2 7'),
      /curve side along sides of elements, received nodes that no surface has/,
    ],
  ])('is refused: %s', (_, broken, message) => {
    expect(() => readMesh(broken)).toThrow(MeshFileError);
    expect(() => readMesh(broken)).toThrow(message);
  });

  it('is refused where elements do not hang together', () => {
    const { faces } = disc;
    // The sheet with nodes of its own along the wrap: not joined; and one node of it moved along: hanging.
    const own = new Map<number, number>();
    const x = [...disc.x];
    const y = [...disc.y];
    const apart = faces.map(({ nodes, surface }) => ({
      surface,
      nodes:
        surface !== 'sheet'
          ? nodes
          : nodes.map((node) => {
              const at = own.get(node) ?? x.push(disc.x[node]!) - 1;
              if (!own.has(node)) {
                own.set(node, at);
                y.push(disc.y[node]!);
              }
              return at;
            }),
    }));
    const edges = disc.edges.filter(({ curve }) => curve === 'seam');
    expect(() => topologyOf(readMesh(meshText({ x, y, faces: apart, edges })))).toThrow(/hangs on another element/);
    const far = x.map((value, i) => ([...own.values()].includes(i) ? value + 50 : value));
    expect(() => topologyOf(readMesh(meshText({ x: far, y, faces: apart, edges })))).toThrow(/one body/);
    const twice = [...faces, faces[0]!];
    expect(() => topologyOf(readMesh(meshText({ ...disc, faces: twice })))).toThrow(/do not overlap/);
  });
});
