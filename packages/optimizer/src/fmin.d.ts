// fmin has no types of its own. Its main entry is a UMD file in a package that is marked as an ES module: Node finds no
// exports in it but runs it, and it then leaves its functions in a global; bundlers do see the exports.
declare module 'fmin' {
  export interface NelderMeadParameters {
    readonly maxIterations: number;
    /** Length of the first simplex's edges along the variables that start at 0. */
    readonly zeroDelta: number;
    readonly rho: number;
    readonly chi: number;
    readonly psi: number;
    readonly sigma: number;
    /** Told of the simplex at the start of every iteration, its vertices by the order in which they were first made. */
    readonly history: {
      push(iteration: { readonly simplex: ReadonlyArray<readonly number[] & { readonly fx: number }> }): unknown;
    };
  }

  export type NelderMead = (
    value: (x: readonly number[]) => number,
    start: number[],
    parameters: NelderMeadParameters,
  ) => { readonly x: readonly number[]; readonly fx: number };

  export const nelderMead: NelderMead | undefined;
}
