// fmin has no types of its own. `method/fmin.ts` says why the export may be undefined.
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
