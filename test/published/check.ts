/** One published value and how this project computes it. */
export interface Check {
  readonly quantity: string;
  readonly published: number;
  readonly compute: () => number;
  /** Of the difference, as a fraction of `scale`; none is above 0.01. */
  readonly tolerance: number;
  /** What differences are measured by; default: the published value. Needed where that is zero. */
  readonly scale?: number;
}

/** Checks that share a source. */
export interface Publication {
  readonly title: string;
  readonly source: string;
  readonly checks: readonly Check[];
  /** A joint is solved for these alone: they belong to the long run. */
  readonly long?: true;
}

/** Difference of a computed value as a fraction of the check's scale. */
export function differenceOf({ published, scale }: Check, computed: number): number {
  return (computed - published) / (scale ?? Math.abs(published));
}

/** Computes once, when first asked. */
export function once<Value>(compute: () => Value): () => Value {
  let done: { readonly value: Value } | undefined;
  return () => {
    done ??= { value: compute() };
    return done.value;
  };
}
