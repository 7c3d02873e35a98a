/** A square linear map of several vectors at once: writes `map from[l]` into `to[l]` for each `l` of `which`. */
export type LinearMap = (from: readonly Float64Array[], to: readonly Float64Array[], which: readonly number[]) => void;

export interface GmresResult {
  iterations: number;
  /** Residual over the right side's norm. */
  residual: number;
}

export interface Gmres {
  /**
   * Solves `map x = right` for every right side, each with a map and iterations of its own, side by side, so that maps may share their work; every `x` is overwritten, with NaN where there
   * was one in map or right side. With `near`, `x` holds a guess to begin from, otherwise what stands in it does not matter. Nothing is allocated but what the first solutions need.
   */
  solve(
    map: LinearMap,
    rights: readonly Float64Array[],
    x: readonly Float64Array[],
    results: readonly GmresResult[],
    near?: boolean,
  ): void;
}

/**
 * GMRES without restart (Saad & Schultz, SIAM J. Sci. Stat. Comput. 7 (1986) 856-869), buffers for `size` unknowns and at most
 * `most` iterations, until the residual is `tolerance` times the right side. The edge equation is of the second kind: a handful of iterations whatever the size, 18 times as fast as
 * ml-matrix's LU with 64 unknowns and 140 times with 256 (benchmarks/linear.js).
 */
export function createGmres(size: number, most: number, tolerance: number): Gmres {
  const spaces: Krylov[] = [];
  const from: Float64Array[] = [];
  const to: Float64Array[] = [];
  const which: number[] = [];
  return {
    solve(map, rights, x, results, near = false) {
      which.length = 0;
      for (let l = 0; l < rights.length; l++) {
        spaces[l] ??= createKrylov(size, most);
        const norm = Math.sqrt(dot(rights[l]!, rights[l]!, size));
        if (!near || norm === 0) x[l]!.fill(0);
        spaces[l]!.begin(norm, tolerance);
        if (norm === 0) continue;
        to[l] = spaces[l]!.next();
        if (near) which.push(l);
        else to[l]!.set(rights[l]!);
      }
      if (near) map(x, to, which);
      which.length = 0;
      for (let l = 0; l < rights.length; l++) {
        const space = spaces[l]!;
        if (space.norm === 0) continue;
        const first = to[l]!;
        if (near) for (let i = 0; i < size; i++) first[i] = rights[l]![i]! - first[i]!;
        space.start(near);
        if (space.goesOn()) which.push(l);
      }
      while (which.length > 0) {
        for (let w = 0; w < which.length; w++) {
          const l = which[w]!;
          from[l] = spaces[l]!.last();
          to[l] = spaces[l]!.next();
        }
        map(from, to, which);
        let left = 0;
        for (let w = 0; w < which.length; w++) {
          const l = which[w]!;
          spaces[l]!.take();
          if (spaces[l]!.goesOn()) which[left++] = l;
        }
        which.length = left;
      }
      for (let l = 0; l < rights.length; l++) spaces[l]!.finish(x[l]!, results[l]!);
    },
  };
}

/** The space that one solution is looked for in. */
interface Krylov {
  readonly norm: number;
  /** Of a right side of this norm. */
  begin(norm: number, tolerance: number): void;
  /** The last vector of the basis, and room for the one after it. */
  last(): Float64Array;
  next(): Float64Array;
  /** Takes the residual at the start, which was written into the first vector: the right side itself, or that of a guess. */
  start(near: boolean): void;
  /** Takes the map of the last vector, which was written into the next. */
  take(): void;
  goesOn(): boolean;
  finish(x: Float64Array, result: GmresResult): void;
}

function createKrylov(size: number, most: number): Krylov {
  const basis: Float64Array[] = [];
  const hessenberg: Float64Array[] = [];
  const cosine = new Float64Array(most);
  const sine = new Float64Array(most);
  const rotated = new Float64Array(most + 1);
  const weight = new Float64Array(most);
  /** Vectors of the basis beyond the first; -1: none yet. */
  let k = -1;
  let norm = 0;
  let enough = 0;
  let residual = 0;
  const vector = (at: number): Float64Array => {
    if (at === basis.length) {
      basis.push(new Float64Array(size));
      hessenberg.push(new Float64Array(at + 2));
    }
    return basis[at]!;
  };
  return {
    get norm() {
      return norm;
    },
    begin(of, tolerance) {
      k = -1;
      norm = of;
      enough = tolerance * of;
      residual = 0;
    },
    last: () => basis[k]!,
    next: () => vector(k + 1),
    start(near) {
      const first = basis[0]!;
      residual = near ? Math.sqrt(dot(first, first, size)) : norm;
      if (residual > 0) scaleInto(first, first, 1 / residual, size);
      rotated[0] = residual;
      k = 0;
    },
    goesOn: () => k < most && residual > enough,
    take() {
      const next = basis[k + 1]!;
      const column = hessenberg[k]!;
      for (let i = 0; i <= k; i++) {
        const projection = dot(basis[i]!, next, size);
        column[i] = projection;
        addScaled(next, basis[i]!, -projection, size);
      }
      const length = Math.sqrt(dot(next, next, size));
      column[k + 1] = length;
      if (length > 0) scaleInto(next, next, 1 / length, size);
      for (let i = 0; i < k; i++) {
        const upper = column[i]!;
        const lower = column[i + 1]!;
        column[i] = cosine[i]! * upper + sine[i]! * lower;
        column[i + 1] = cosine[i]! * lower - sine[i]! * upper;
      }
      const hypotenuse = Math.sqrt(column[k]! ** 2 + length ** 2);
      cosine[k] = column[k]! / hypotenuse;
      sine[k] = length / hypotenuse;
      column[k] = hypotenuse;
      rotated[k + 1] = -sine[k]! * rotated[k]!;
      rotated[k]! *= cosine[k]!;
      residual = Math.abs(rotated[k + 1]!);
      // A NaN in the map ends here.
      if (residual >= 0) k++;
    },
    finish(x, result) {
      result.iterations = Math.max(0, k);
      result.residual = norm === 0 ? 0 : residual / norm;
      if (k < 0) return;
      for (let i = k - 1; i >= 0; i--) {
        let sum = rotated[i]!;
        for (let j = i + 1; j < k; j++) sum -= hessenberg[j]![i]! * weight[j]!;
        weight[i] = sum / hessenberg[i]![i]!;
      }
      for (let i = 0; i < k; i++) addScaled(x, basis[i]!, weight[i]!, size);
      if (Number.isNaN(residual)) x.fill(Number.NaN);
    },
  };
}

function dot(a: Float64Array, b: Float64Array, size: number): number {
  let even = 0;
  let odd = 0;
  for (let i = 0; i + 1 < size; i += 2) {
    even += a[i]! * b[i]!;
    odd += a[i + 1]! * b[i + 1]!;
  }
  return size % 2 === 0 ? even + odd : even + odd + a[size - 1]! * b[size - 1]!;
}

function addScaled(target: Float64Array, a: Float64Array, factor: number, size: number): void {
  for (let i = 0; i < size; i++) target[i]! += factor * a[i]!;
}

function scaleInto(target: Float64Array, a: Float64Array, factor: number, size: number): void {
  for (let i = 0; i < size; i++) target[i] = factor * a[i]!;
}
