/** A square linear map: writes `map x` into `out`. */
export type LinearMap = (x: Float64Array, out: Float64Array) => void;

export interface GmresResult {
  iterations: number;
  /** Residual over the right side's norm. */
  residual: number;
}

export interface Gmres {
  /**
   * Solves `map x = right`; `x` is overwritten, with NaN where there was one in map or right side. With `near`, `x` holds a
   * guess to begin from, otherwise what stands in it does not matter. Nothing is allocated.
   */
  solve(map: LinearMap, right: Float64Array, x: Float64Array, result: GmresResult, near?: boolean): void;
}

/**
 * GMRES without restart (Saad & Schultz, SIAM J. Sci. Stat. Comput. 7 (1986) 856-869), buffers for `size` unknowns and at most
 * `most` iterations, until the residual is `tolerance` times the right side. The edge equation is of the second kind: a handful of iterations whatever the size, 18 times as fast as
 * ml-matrix's LU with 64 unknowns and 140 times with 256 (benchmarks/linear.js).
 */
export function createGmres(size: number, most: number, tolerance: number): Gmres {
  const basis = Array.from({ length: most + 1 }, () => new Float64Array(size));
  const hessenberg = Array.from({ length: most }, (_, k) => new Float64Array(k + 2));
  const cosine = new Float64Array(most);
  const sine = new Float64Array(most);
  const rotated = new Float64Array(most + 1);
  const weight = new Float64Array(most);

  return {
    solve(map, right, x, result, near = false) {
      const norm = Math.sqrt(dot(right, right, size));
      result.iterations = 0;
      result.residual = 0;
      if (!near || norm === 0) x.fill(0);
      if (norm === 0) return;
      const first = basis[0]!;
      if (near) {
        map(x, first);
        for (let i = 0; i < size; i++) first[i] = right[i]! - first[i]!;
      } else first.set(right);
      let residual = near ? Math.sqrt(dot(first, first, size)) : norm;
      if (residual > 0) scaleInto(first, first, 1 / residual, size);
      rotated[0] = residual;
      let k = 0;
      for (; k < most && residual > tolerance * norm; k++) {
        const next = basis[k + 1]!;
        const column = hessenberg[k]!;
        map(basis[k]!, next);
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
        if (!(residual >= 0)) break;
      }
      for (let i = k - 1; i >= 0; i--) {
        let sum = rotated[i]!;
        for (let j = i + 1; j < k; j++) sum -= hessenberg[j]![i]! * weight[j]!;
        weight[i] = sum / hessenberg[i]![i]!;
      }
      for (let i = 0; i < k; i++) addScaled(x, basis[i]!, weight[i]!, size);
      result.iterations = k;
      result.residual = residual / norm;
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
