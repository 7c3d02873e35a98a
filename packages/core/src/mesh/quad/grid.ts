import type { MaterialAxes, SectionMesh } from './section-mesh.js';

/** A curved rectangle of elements: `columns x rows`, with the place of every node of its (2 columns + 1) x (2 rows + 1) grid. */
export interface Block {
  readonly columns: number;
  readonly rows: number;
  at(column: number, row: number): readonly [number, number];
  /** Material of the elements of a row. */
  material(row: number): number;
  readonly axes: MaterialAxes;
}

/** Where a block's elements went: element `(column, row)` is number `first + row * columns + column`. */
export interface PlacedBlock {
  readonly first: number;
  readonly columns: number;
  readonly rows: number;
}

/** Joins blocks into one mesh; nodes closer than `tolerance` (mm) are one node. */
export function joinBlocks(
  blocks: readonly Block[],
  tolerance: number,
): { readonly mesh: SectionMesh; readonly placed: readonly PlacedBlock[] } {
  const x: number[] = [];
  const y: number[] = [];
  const elements: number[] = [];
  const material: number[] = [];
  const axes: MaterialAxes[] = [];
  const cells = new Map<string, number>();
  const node = ([px, py]: readonly [number, number]): number => {
    // A point near the border of its cell may have its twin in the next one.
    const i = Math.round(px / (4 * tolerance));
    const j = Math.round(py / (4 * tolerance));
    for (let di = -1; di <= 1; di++)
      for (let dj = -1; dj <= 1; dj++) {
        const found = cells.get(`${i + di},${j + dj}`);
        if (found !== undefined && Math.hypot(x[found]! - px, y[found]! - py) < tolerance) return found;
      }
    cells.set(`${i},${j}`, x.length);
    x.push(px);
    y.push(py);
    return x.length - 1;
  };
  const placed: PlacedBlock[] = [];
  for (const block of blocks) {
    const width = 2 * block.columns + 1;
    placed.push({ first: material.length, columns: block.columns, rows: block.rows });
    const nodes: number[] = [];
    for (let row = 0; row <= 2 * block.rows; row++)
      for (let column = 0; column < width; column++) nodes.push(node(block.at(column, row)));
    for (let row = 0; row < block.rows; row++)
      for (let column = 0; column < block.columns; column++) {
        for (let b = 0; b < 3; b++)
          for (let a = 0; a < 3; a++) elements.push(nodes[(2 * row + b) * width + 2 * column + a]!);
        material.push(block.material(row));
        axes.push(block.axes);
      }
  }
  return {
    mesh: {
      x: Float64Array.from(x),
      y: Float64Array.from(y),
      elements: Int32Array.from(elements),
      material: Int32Array.from(material),
      axes,
    },
    placed,
  };
}

/** A mesh of named blocks, where each went, and what stands at a node of an element: `a` and `b` from 0 to 2 along its columns and rows. */
export interface JoinedParts<Part extends string> {
  readonly mesh: SectionMesh;
  readonly parts: Readonly<Partial<Record<Part, PlacedBlock>>>;
  nodeOf(part: Part, column: number, row: number, a: number, b: number): number;
}

/** Joins blocks that have names, see `joinBlocks`. */
export function joinParts<Part extends string>(
  blocks: readonly (readonly [part: Part, block: Block])[],
  tolerance: number,
): JoinedParts<Part> {
  const { mesh, placed } = joinBlocks(
    blocks.map(([, block]) => block),
    tolerance,
  );
  const parts: Partial<Record<Part, PlacedBlock>> = {};
  blocks.forEach(([part], b) => {
    parts[part] = placed[b]!;
  });
  return {
    mesh,
    parts,
    nodeOf(part, column, row, a, b) {
      const block = parts[part]!;
      return mesh.elements[9 * (block.first + row * block.columns + column) + 3 * b + a]!;
    },
  };
}
