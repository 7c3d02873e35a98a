export interface FrontProblem {
  readonly name: string;
  readonly bounds: { readonly lower: readonly number[]; readonly upper: readonly number[] };
  readonly objectives: number;
  readonly constraints: number;
  /** Reference point of the hypervolume. */
  readonly reference: readonly number[];
  evaluate(x: ArrayLike<number>): { readonly objectives: number[]; readonly constraints?: number[] };
}

export declare const multiObjective: readonly FrontProblem[];
