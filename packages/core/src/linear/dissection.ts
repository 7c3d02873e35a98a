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
  return new Dissection(topology, kept, dropped).fronts;
}

/** A class: functions made anew for each mesh would be compiled for each mesh. */
class Dissection {
  readonly fronts: Front[] = [];
  readonly #topology: ElementTopology;
  readonly #kept: Uint8Array;
  readonly #dropped: Uint8Array;
  readonly #order: Int32Array;
  /** How many elements touch a dof: all, and those of the part. */
  readonly #touching: Int32Array;
  readonly #within: Int32Array;
  readonly #key: Float64Array;
  readonly #mark: Int32Array;
  #stamp = 0;
  /** How many of the elements that touch a border dof lie in the part. */
  readonly #counts: Int32Array[] = [];

  constructor(topology: ElementTopology, kept: Uint8Array, dropped: Uint8Array) {
    const { offsets, dofs, dofCount } = topology;
    const elementCount = offsets.length - 1;
    this.#topology = topology;
    this.#kept = kept;
    this.#dropped = dropped;
    this.#order = Int32Array.from({ length: elementCount }, (_, e) => e);
    this.#touching = new Int32Array(dofCount);
    for (const dof of dofs) this.#touching[dof]!++;
    this.#within = new Int32Array(dofCount);
    this.#key = new Float64Array(elementCount);
    this.#mark = new Int32Array(dofCount).fill(-1);
    if (elementCount > 0) this.#visit(0, elementCount);
  }

  /** Makes the fronts of `order[from..to)`; returns the last one's index. */
  #visit(from: number, to: number): number {
    const children: number[] = [];
    if (to - from > leafSize) {
      const middle = (from + to) >> 1;
      this.#halve(from, middle, to);
      children.push(this.#visit(from, middle), this.#visit(middle, to));
    }
    const elements = this.#order.slice(from, children.length === 0 ? to : from);
    const met = this.#meetAll(elements, children);
    const [pivots, border]: [number[], number[]] = [[], []];
    for (const dof of met)
      (this.#kept[dof] === 0 && this.#within[dof] === this.#touching[dof] ? pivots : border).push(dof);
    this.#counts.push(Int32Array.from(border, (dof) => this.#within[dof]!));
    this.fronts.push({ pivots: Int32Array.from(pivots), border: Int32Array.from(border), children, elements });
    return this.fronts.length - 1;
  }

  /** Orders the elements of a part by position, along the direction in which its halves share the fewest dofs. */
  #halve(from: number, middle: number, to: number): void {
    let best = directions[0]!;
    let least = Number.POSITIVE_INFINITY;
    for (const direction of directions) {
      this.#splitAlong(direction, from, middle, to);
      const size = this.#cutSize(from, middle, to);
      if (size < least) {
        least = size;
        best = direction;
      }
    }
    if (best !== directions[directions.length - 1]) this.#splitAlong(best, from, middle, to);
  }

  #splitAlong([along, up]: readonly [number, number], from: number, middle: number, to: number): void {
    const { x, y } = this.#topology;
    const order = this.#order;
    const key = this.#key;
    for (let i = from; i < to; i++) {
      const e = order[i]!;
      key[e] = along * x[e]! + up * y[e]!;
    }
    selectMiddle(order, key, from, middle, to);
  }

  /** Dofs that both halves of `order[from..to)` touch. */
  #cutSize(from: number, middle: number, to: number): number {
    const { offsets, dofs } = this.#topology;
    const [order, mark, kept, dropped] = [this.#order, this.#mark, this.#kept, this.#dropped];
    const stamp = ++this.#stamp;
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
  }

  /** All dofs that a part's elements, or its parts' borders, touch; how many of its elements do stands in `within`. */
  #meetAll(elements: Int32Array, children: readonly number[]): number[] {
    const { offsets, dofs } = this.#topology;
    const met: number[] = [];
    this.#stamp++;
    for (const e of elements)
      for (let k = offsets[e]!; k < offsets[e + 1]!; k++)
        if (this.#dropped[dofs[k]!] === 0) this.#meet(dofs[k]!, 1, met);
    for (const child of children) {
      const { border } = this.fronts[child]!;
      const counts = this.#counts[child]!;
      for (let b = 0; b < border.length; b++) this.#meet(border[b]!, counts[b]!, met);
    }
    return met;
  }

  /** Adds `count` of the elements that touch `dof` to those within the part. */
  #meet(dof: number, count: number, met: number[]): void {
    if (this.#mark[dof] !== this.#stamp) {
      this.#mark[dof] = this.#stamp;
      this.#within[dof] = 0;
      met.push(dof);
    }
    this.#within[dof]! += count;
  }
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
