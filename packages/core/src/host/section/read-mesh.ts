import { type MeshFile, MeshFileError } from './mesh-file.js';

/** Longest text that is read, and most nodes: what a section of second order takes, tenfold. */
export const meshSizeLimit = 32 * 1024 * 1024;
export const mostNodes = 60_000;

/** Kinds of elements by their numbers in the format. */
const kinds: Readonly<Record<number, { readonly dimension: number; readonly nodes: number }>> = {
  8: { dimension: 1, nodes: 3 },
  9: { dimension: 2, nodes: 6 },
  10: { dimension: 2, nodes: 9 },
  16: { dimension: 2, nodes: 8 },
  15: { dimension: 0, nodes: 1 },
};
const firstOrder = [1, 2, 3];

const remedies = {
  order: 'mesh with elements of second order: triangles of 6 nodes, quadrilaterals of 8 or 9, edges of 3',
  save: 'save the mesh anew as MSH 4.1, text',
  name: 'give each surface one name of its own (a physical group) and save the mesh anew',
};

/** Lines of the text, one after the other; every refusal names the one that was read last. */
class Lines {
  readonly #lines: readonly string[];
  #next = 0;

  constructor(text: string) {
    this.#lines = text.split(/\r?\n/);
  }

  refuse(expected: string, received: string, remedy: string): MeshFileError {
    return new MeshFileError({ line: this.#next, expected, received: received.slice(0, 80), remedy });
  }

  /** The next line that is not empty; `undefined` at the end. */
  next(): string | undefined {
    while (this.#next < this.#lines.length) {
      const line = this.#lines[this.#next++]!.trim();
      if (line !== '') return line;
    }
    return undefined;
  }

  /** The numbers of the next line, at least `least` of them. */
  numbers(least: number, what: string): number[] {
    const line = this.next() ?? '';
    const values = line.split(/\s+/).map(Number);
    if (line === '' || line.startsWith('$') || values.length < least || !values.every(Number.isFinite))
      throw this.refuse(
        what,
        line === '' ? 'the end of the file' : line,
        `the file is cut off or damaged; ${remedies.save}`,
      );
    return values;
  }

  /** A count out of the numbers of a line. */
  count(value: number | undefined, what: string): number {
    if (Number.isInteger(value) && value! >= 0) return value!;
    throw this.refuse(`a number of ${what}`, String(value), remedies.save);
  }

  close(section: string): void {
    const line = this.next();
    if (line !== `$End${section}`)
      throw this.refuse(
        `$End${section} after as many entries as the section announces`,
        line ?? 'the end of the file',
        `the counts of the section are wrong; ${remedies.save}`,
      );
  }

  skip(section: string): void {
    for (let line = this.next(); line !== `$End${section}`; line = this.next())
      if (line === undefined)
        throw this.refuse(`$End${section}`, 'the end of the file', `the file is cut off; ${remedies.save}`);
  }
}

/** Names of a dimension by their numbers. */
type Names = ReadonlyMap<number, string>;

interface Named {
  readonly curves: Names;
  readonly surfaces: Names;
}

/** Which names the curves and surfaces of the geometry carry: elements tell only these. */
interface Entities {
  readonly curves: ReadonlyMap<number, readonly number[]>;
  readonly surfaces: ReadonlyMap<number, readonly number[]>;
}

/**
 * Reads MSH 4.1 text (the mesh format of an open mesher; its reference manual describes it): physical names, entities, nodes and elements of second order in the plane
 * z = 0. Throws MeshFileError.
 */
export function readMesh(text: string): MeshFile {
  if (text.length > meshSizeLimit)
    throw new MeshFileError({
      expected: `at most ${meshSizeLimit / 2 ** 20} MiB`,
      received: `${(text.length / 2 ** 20).toFixed(1)} MiB`,
      remedy: 'mesh more coarsely away from the filler',
    });
  const lines = new Lines(text);
  const found = new Set<string>();
  let named: Named = { curves: new Map(), surfaces: new Map() };
  let entities: Entities | undefined;
  let nodes: Nodes | undefined;
  let elements: Elements | undefined;
  for (let line = lines.next(); line !== undefined; line = lines.next()) {
    const section = line.slice(1);
    if (!line.startsWith('$') || (found.size === 0 && section !== 'MeshFormat'))
      throw lines.refuse('a section of MSH 4.1 text ($MeshFormat first)', line, `name a mesh file; ${remedies.save}`);
    if (found.has(section)) throw lines.refuse('each section once', line, remedies.save);
    found.add(section);
    if (section === 'MeshFormat') readFormat(lines);
    else if (section === 'PhysicalNames') named = readNames(lines);
    else if (section === 'Entities') entities = readEntities(lines);
    else if (section === 'Nodes') nodes = readNodes(lines);
    else if (section === 'Elements') elements = readElements(lines, entities, named, nodes);
    else {
      if (section === 'PartitionedEntities')
        throw lines.refuse('a mesh in one piece', line, 'save it without partitions');
      lines.skip(section);
      continue;
    }
    lines.close(section);
  }
  if (nodes === undefined || elements === undefined)
    throw lines.refuse(
      'sections $Nodes and $Elements',
      [...found].map((one) => `$${one}`).join(', ') || 'an empty file',
      remedies.save,
    );
  return compact(nodes, elements, lines);
}

function readFormat(lines: Lines): void {
  const [version, binary] = lines.numbers(3, 'the version of the format: 4.1 0 8');
  if (version !== 4.1) throw lines.refuse('version 4.1', String(version), remedies.save);
  if (binary !== 0) throw lines.refuse('text', 'a binary file', remedies.save);
}

function readNames(lines: Lines): Named {
  const count = lines.count(lines.numbers(1, 'how many names follow')[0], 'names');
  const named = { curves: new Map<number, string>(), surfaces: new Map<number, string>() };
  for (let i = 0; i < count; i++) {
    const line = lines.next() ?? 'the end of the file';
    const match = /^(\d) (-?\d+) "(.*)"$/.exec(line);
    if (match === null) throw lines.refuse('dimension, number and "name"', line, remedies.save);
    const [, dimension, tag, name] = match;
    const names = dimension === '1' ? named.curves : dimension === '2' ? named.surfaces : undefined;
    if (names === undefined) continue;
    if ([...names.values()].includes(name!))
      throw lines.refuse('each name of a curve or a surface once', `"${name}" twice`, 'rename one of them');
    names.set(Number(tag), name!);
  }
  return named;
}

function readEntities(lines: Lines): Entities {
  const counts = lines
    .numbers(4, 'numbers of points, curves, surfaces and volumes')
    .map((n) => lines.count(n, 'entities'));
  const read = (count: number, coordinates: number) => {
    const physical = new Map<number, number[]>();
    for (let i = 0; i < count; i++) {
      const values = lines.numbers(coordinates + 2, 'an entity');
      const groups = lines.count(values[coordinates + 1], 'names');
      physical.set(values[0]!, values.slice(coordinates + 2, coordinates + 2 + groups).map(Math.abs));
    }
    return physical;
  };
  read(counts[0]!, 3);
  const curves = read(counts[1]!, 6);
  const surfaces = read(counts[2]!, 6);
  read(counts[3]!, 6);
  return { curves, surfaces };
}

interface Nodes {
  readonly x: number[];
  readonly y: number[];
  /** Number by the file's own. */
  readonly at: ReadonlyMap<number, number>;
}

function readNodes(lines: Lines): Nodes {
  const [blocks, total] = lines.numbers(4, 'numbers of blocks and nodes');
  const count = lines.count(total, 'nodes');
  if (count > mostNodes)
    throw lines.refuse(`at most ${mostNodes} nodes`, String(count), 'mesh more coarsely away from the filler');
  const at = new Map<number, number>();
  const x: number[] = [];
  const y: number[] = [];
  for (let block = 0; block < lines.count(blocks, 'blocks'); block++) {
    const size = lines.count(lines.numbers(4, 'a block of nodes: dimension, entity, parametric, how many')[3], 'nodes');
    if (at.size + size > count)
      throw lines.refuse(
        `${count} nodes, as announced`,
        `more of them`,
        `the counts of the section are wrong; ${remedies.save}`,
      );
    const tags: number[] = [];
    for (let i = 0; i < size; i++) {
      const tag = lines.numbers(1, 'the number of a node')[0]!;
      if (at.has(tag)) throw lines.refuse('each node once', `node ${tag} twice`, remedies.save);
      at.set(tag, x.length + i);
      tags.push(tag);
    }
    for (const tag of tags) {
      const [px, py, pz] = lines.numbers(3, `the coordinates of node ${tag}: x y z`) as [number, number, number];
      if (Math.abs(pz) > 1e-9 * Math.max(1, Math.abs(px), Math.abs(py)))
        throw lines.refuse('z = 0: a section in the plane x, y', `z = ${pz}`, 'turn the section into the plane x, y');
      x.push(px);
      y.push(py);
    }
  }
  if (x.length !== count)
    throw lines.refuse(
      `${count} nodes, as announced`,
      String(x.length),
      `the counts of the section are wrong; ${remedies.save}`,
    );
  return { x, y, at };
}

/** Elements with the file's nodes by number, as the format orders them. */
interface Elements {
  readonly surfaces: readonly string[];
  readonly faces: readonly { readonly nodes: readonly number[]; readonly surface: number; readonly line: string }[];
  readonly curves: ReadonlyMap<string, number[]>;
}

function readElements(lines: Lines, entities: Entities | undefined, named: Named, nodes: Nodes | undefined): Elements {
  if (entities === undefined || nodes === undefined)
    throw lines.refuse('$Entities and $Nodes before $Elements', '$Elements', remedies.save);
  const [blocks, total] = lines.numbers(4, 'numbers of blocks and elements');
  const surfaces: string[] = [];
  const faces: Elements['faces'][number][] = [];
  const curves = new Map<string, number[]>();
  let read = 0;
  for (let block = 0; block < lines.count(blocks, 'blocks'); block++) {
    const [dimension, entity, type, size] = lines.numbers(
      4,
      'a block of elements: dimension, entity, kind, how many',
    ) as [number, number, number, number];
    const kind = kinds[type];
    if (kind === undefined) {
      const what = firstOrder.includes(type)
        ? 'elements of first order, whose stresses err by percents'
        : `elements of kind ${type}`;
      throw lines.refuse('triangles of 6, quadrilaterals of 8 or 9, edges of 3 nodes', what, remedies.order);
    }
    const names = namesOf(lines, dimension, entity, entities, named);
    for (let i = 0; i < lines.count(size, 'elements'); i++) {
      const values = lines.numbers(1 + kind.nodes, `an element of ${kind.nodes} nodes`);
      if (values.length !== 1 + kind.nodes)
        throw lines.refuse(`an element of ${kind.nodes} nodes`, `${values.length - 1} nodes`, remedies.save);
      read++;
      if (dimension === 0) continue;
      const own = values.slice(1).map((tag) => {
        const node = nodes.at.get(tag);
        if (node === undefined) throw lines.refuse('a node of $Nodes', `node ${tag}`, remedies.save);
        return node;
      });
      if (dimension === 1)
        for (const name of names) {
          const list = curves.get(name) ?? [];
          list.push(...own);
          curves.set(name, list);
        }
      else {
        let surface = surfaces.indexOf(names[0]!);
        if (surface < 0) surface = surfaces.push(names[0]!) - 1;
        faces.push({ nodes: own, surface, line: `element ${values[0]}` });
      }
    }
  }
  if (read !== total)
    throw lines.refuse(
      `${total} elements, as announced`,
      String(read),
      `the counts of the section are wrong; ${remedies.save}`,
    );
  if (faces.length === 0) throw lines.refuse('elements of surfaces', 'none', remedies.order);
  return { surfaces, faces, curves };
}

/** The names that elements of an entity carry: of a surface exactly one. */
function namesOf(lines: Lines, dimension: number, entity: number, entities: Entities, named: Named): string[] {
  if (dimension !== 1 && dimension !== 2) {
    if (dimension === 0) return [];
    throw lines.refuse('a plane mesh', 'elements of a volume', 'mesh the section alone');
  }
  const [groups, names] = dimension === 1 ? [entities.curves, named.curves] : [entities.surfaces, named.surfaces];
  const own = (groups.get(entity) ?? []).flatMap((group) => names.get(group) ?? []);
  if (dimension === 2 && own.length !== 1)
    throw lines.refuse(
      'a surface with one name',
      own.length === 0 ? `surface ${entity} without a name` : `surface ${entity} with the names ${own.join(', ')}`,
      remedies.name,
    );
  return own;
}

const triangleTurned = [0, 2, 1, 5, 4, 3];
const quadTurned = [0, 3, 2, 1, 7, 6, 5, 4, 8];
/** From the format's order (corners, middles of sides, middle) to rows of a grid. */
const asGrid = [0, 4, 1, 7, 8, 5, 3, 6, 2];

/** Only what surfaces use, counter-clockwise; quadrilaterals of eight nodes get the middle that leaves their map as it is. */
function compact({ x: allX, y: allY }: Nodes, { surfaces, faces, curves }: Elements, lines: Lines): MeshFile {
  const x: number[] = [];
  const y: number[] = [];
  const place = new Map<number, number>();
  const node = (of: number) => {
    let at = place.get(of);
    if (at === undefined) {
      at = x.push(allX[of]!) - 1;
      y.push(allY[of]!);
      place.set(of, at);
    }
    return at;
  };
  const quads: number[] = [];
  const quadSurface: number[] = [];
  const triangles: number[] = [];
  const triangleSurface: number[] = [];
  for (const { nodes, surface, line } of faces) {
    const corners = nodes.length === 6 ? 3 : 4;
    let twice = 0;
    for (let i = 0; i < corners; i++) {
      const [a, b] = [nodes[i]!, nodes[(i + 1) % corners]!];
      twice += allX[a]! * allY[b]! - allX[b]! * allY[a]!;
    }
    if (twice === 0)
      throw lines.refuse(
        'elements with an area',
        `${line} without`,
        'remove degenerate elements and save the mesh anew',
      );
    const turned = corners === 3 ? triangleTurned : quadTurned;
    const own = (twice > 0 ? nodes : turned.slice(0, nodes.length).map((i) => nodes[i]!)).map(node);
    if (corners === 3) {
      triangles.push(...own);
      triangleSurface.push(surface);
      continue;
    }
    if (own.length === 8) {
      const middle = (v: number[]) => own.reduce((sum, n, i) => sum + (i < 4 ? -1 / 4 : 1 / 2) * v[n]!, 0);
      const [middleX, middleY] = [middle(x), middle(y)];
      own.push(x.push(middleX) - 1);
      y.push(middleY);
    }
    quads.push(...asGrid.map((i) => own[i]!));
    quadSurface.push(surface);
  }
  const named = [...curves].map(([name, list]): [string, Int32Array] => {
    const known = list.map((of) => place.get(of) ?? -1);
    if (known.includes(-1))
      throw lines.refuse(
        `curve ${name} along sides of elements`,
        'nodes that no surface has',
        'mesh curves and surfaces together',
      );
    return [name, Int32Array.from(known)];
  });
  return {
    x: Float64Array.from(x),
    y: Float64Array.from(y),
    quads: Int32Array.from(quads),
    quadSurface: Int32Array.from(quadSurface),
    triangles: Int32Array.from(triangles),
    triangleSurface: Int32Array.from(triangleSurface),
    surfaces,
    curves: new Map(named),
  };
}
