/** A corner of fmin's simplex. */
export type FminCorner = readonly number[] & { readonly fx: number };

/** fmin's `nelderMead`, as far as it is used. */
export type FminRun = (
  value: (x: readonly number[]) => number,
  start: number[],
  parameters: {
    readonly maxIterations: number;
    /** Its own stop: values, and coordinates of the two best corners, that are nearer than this. */
    readonly minErrorDelta: number;
    /** Length of the first simplex's edges along the variables that start at 0. */
    readonly zeroDelta: number;
    readonly rho: number;
    readonly chi: number;
    readonly psi: number;
    readonly sigma: number;
    /** Told of the simplex at the start of every iteration. */
    readonly history: { push(iteration: { readonly simplex: readonly FminCorner[] }): unknown };
  },
) => unknown;

let loading: Promise<FminRun | undefined> | undefined;

/** fmin's `nelderMead`, loaded on first use; `undefined` where its file cannot be loaded without harm. */
export function loadFmin(): Promise<FminRun | undefined> {
  loading ??= load();
  return loading;
}

/**
 * The package is marked as an ES module, but its file is UMD: bundlers that look into it find exports, Node and browsers run it and find a
 * global, which is taken away again. An AMD loader would take the file for a module of a page's own, a CommonJS script's `exports` would be
 * written into, and a frozen `globalThis` makes the file throw: there it is not loaded.
 */
async function load(): Promise<FminRun | undefined> {
  const { define, exports } = globalThis as {
    readonly define?: { readonly amd?: unknown };
    readonly exports?: unknown;
  };
  if (define?.amd !== undefined || exports !== undefined || !Object.isExtensible(globalThis)) return undefined;
  const before = Object.getOwnPropertyDescriptor(globalThis, 'fmin');
  const namespace = await import('fmin');
  if (namespace.nelderMead !== undefined) return namespace.nelderMead;
  const { fmin } = globalThis as { readonly fmin?: { readonly nelderMead?: FminRun } };
  if (before === undefined) Reflect.deleteProperty(globalThis, 'fmin');
  else Object.defineProperty(globalThis, 'fmin', before);
  return fmin?.nelderMead;
}
