export interface LeastSquaresProblem {
  readonly name: string;
  readonly start: readonly number[];
  readonly least: number;
  value(x: ArrayLike<number>): number;
}

export declare const moreGarbowHillstrom: readonly LeastSquaresProblem[];
