/** Which dofs each element touches, and where it lies: what the elimination order is made from. */
export interface ElementTopology {
  readonly dofCount: number;
  /** Dofs of element `e`: `dofs[offsets[e]] ... dofs[offsets[e + 1] - 1]`; lists may differ in length; a dof may be listed twice. */
  readonly offsets: Int32Array;
  readonly dofs: Int32Array;
  /** A point in each element, mm: guides the dissection only. */
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** One dense step of the elimination: `pivots` leave, `border` stays for the parent. */
export interface Front {
  readonly pivots: Int32Array;
  readonly border: Int32Array;
  /** Indices of earlier fronts that end in this one. */
  readonly children: readonly number[];
  /** Elements summed here (leaves only). */
  readonly elements: Int32Array;
}

/** Elements per leaf: below this, the bookkeeping costs more than the zeros that a dense leaf carries along. */
const leafSize = 4;

/**
 * Nested dissection by recursive bisection of the elements (George, SIAM J. Numer. Anal. 10 (1973) 345-363, for general
 * meshes): the elements are halved by position along whichever of four directions cuts the fewest dofs, and a dof is
 * eliminated in the smallest part that holds all elements it belongs to. `kept` dofs (1) are never eliminated, `dropped`
 * ones never enter. Fronts come children first; the last one is the root, its border the kept dofs that elements touch.
 */
export function dissect(topology: ElementTopology, kept: Uint8Array, dropped: Uint8Array): readonly Front[] {
  const { offsets, dofs, x, y } = topology;
  const elementCount = offsets.length - 1;
  const order = Int32Array.from({ length: elementCount }, (_, e) => e);
  const touching = new Int32Array(topology.dofCount);
  for (const dof of dofs) touching[dof]!++;
  const key = new Float64Array(elementCount);
  const mark = new Int32Array(topology.dofCount).fill(-1);
  const within = new Int32Array(topology.dofCount);
  let stamp = 0;
  const fronts: Front[] = [];
  /** How many of the elements that touch a border dof lie in the part. */
  const counts: Int32Array[] = [];

  /** Dofs that both halves of `order[from..to)` touch. */
  const cutSize = (from: number, middle: number, to: number) => {
    stamp++;
    for (let i = from; i < middle; i++)
      for (let k = offsets[order[i]!]!; k < offsets[order[i]! + 1]!; k++) mark[dofs[k]!] = stamp;
    let size = 0;
    for (let i = middle; i < to; i++)
      for (let k = offsets[order[i]!]!; k < offsets[order[i]! + 1]!; k++) {
        const dof = dofs[k]!;
        if (mark[dof] !== stamp) continue;
        mark[dof] = -1;
        if (kept[dof] === 0 && dropped[dof] === 0) size++;
      }
    return size;
  };

  const splitAlong = (from: number, middle: number, to: number, direction: readonly [number, number]) => {
    for (let i = from; i < to; i++) {
      const e = order[i]!;
      key[e] = direction[0] * x[e]! + direction[1] * y[e]!;
    }
    selectMiddle(order, key, from, middle, to);
  };

  const visit = (from: number, to: number): number => {
    const children: number[] = [];
    if (to - from > leafSize) {
      const middle = (from + to) >> 1;
      let best = directions[0]!;
      let least = Infinity;
      for (const direction of directions) {
        splitAlong(from, middle, to, direction);
        const size = cutSize(from, middle, to);
        if (size < least) {
          least = size;
          best = direction;
        }
      }
      if (best !== directions[directions.length - 1]) splitAlong(from, middle, to, best);
      children.push(visit(from, middle), visit(middle, to));
    }
    const elements = children.length === 0 ? order.slice(from, to) : new Int32Array(0);
    const met: number[] = [];
    stamp++;
    /** Adds `count` of the elements that touch `dof` to those within this part. */
    const meet = (dof: number, count: number) => {
      if (mark[dof] !== stamp) {
        mark[dof] = stamp;
        within[dof] = 0;
        met.push(dof);
      }
      within[dof]! += count;
    };
    for (const e of elements)
      for (let k = offsets[e]!; k < offsets[e + 1]!; k++) if (dropped[dofs[k]!] === 0) meet(dofs[k]!, 1);
    for (const child of children)
      fronts[child]!.border.forEach((dof, b) => {
        meet(dof, counts[child]![b]!);
      });
    const complete = (dof: number) => kept[dof] === 0 && within[dof] === touching[dof];
    const border = Int32Array.from(met.filter((dof) => !complete(dof)));
    counts.push(border.map((dof) => within[dof]!));
    fronts.push({ pivots: Int32Array.from(met.filter(complete)), border, children, elements });
    return fronts.length - 1;
  };
  if (elementCount > 0) visit(0, elementCount);
  return fronts;
}

const directions: readonly (readonly [number, number])[] = [
  [1, 0],
  [0, 1],
  [1, 1],
  [1, -1],
];

/** Reorders `order[from..to)` so that the keys before `middle` are not above those from it on (Hoare's quickselect). */
function selectMiddle(order: Int32Array, key: Float64Array, from: number, middle: number, to: number): void {
  let low = from;
  let high = to - 1;
  while (low < high) {
    const pivot = key[order[(low + high) >> 1]!]!;
    let i = low;
    let j = high;
    while (i <= j) {
      while (key[order[i]!]! < pivot) i++;
      while (key[order[j]!]! > pivot) j--;
      if (i <= j) {
        const swap = order[i]!;
        order[i] = order[j]!;
        order[j] = swap;
        i++;
        j--;
      }
    }
    if (middle <= j) high = j;
    else if (middle >= i) low = i;
    else return;
  }
}
