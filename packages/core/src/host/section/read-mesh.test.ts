import { describe, expect, it } from 'vitest';
import { discInSheet, meshText } from '../../../../../test/fixtures/mesh-text.js';
import { MeshFileError } from './mesh-file.js';
import { mostNodes, readMesh } from './read-mesh.js';
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
