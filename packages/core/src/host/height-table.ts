import type { ReducedLoad, ReducedModel } from './reduced-model.js';

/**
 * A host whose pocket follows its channel, reduced at several heights of the pocket. Contour, inset and regular fields are in proportion
 * to the height, so that answers and undisturbed fields change smoothly with its logarithm and can be interpolated; with a contour of fixed
 * size they cannot (errors of 200 %).
 */
export interface HeightTable {
  /** Least and largest height that may be asked for, mm. */
  readonly range: readonly [least: number, most: number];
  /** Those that were solved, growing, mm. */
  readonly heights: Float64Array;
  readonly models: readonly ReducedModel[];
}

/** The models of a ratio of 2.7 between the largest and the least height: 4 (`test/examples/pocket-heights.test.ts` of the repository holds it against the mesh). */
const intervalsPerE = 3;
const fewest = 3;

/** Heights at which a range is solved: Chebyshev points of its logarithm. */
export function tableHeights([least, most]: HeightTable['range']): number[] {
  const ratio = Math.log(most / least);
  const count = Math.max(fewest, 1 + Math.ceil(intervalsPerE * ratio - 0.02));
  return Array.from({ length: count }, (_, k) => {
    const place = -Math.cos((Math.PI * (2 * k + 1)) / (2 * count));
    return Math.sqrt(least * most) * Math.exp((place * ratio) / 2);
  });
}

/** What a table of heights is made of: each is reduced by itself, in any order and thread. */
export interface HeightPlan {
  readonly range: HeightTable['range'];
  /** Growing, mm. */
  readonly heights: readonly number[];
  reduce(height: number): ReducedModel;
}

/** The model of a range of heights from those of single ones, in the plan's order. */
export function joinHeights({ range, heights }: HeightPlan, models: readonly ReducedModel[]): ReducedModel {
  return { ...models[models.length >> 1]!, heights: { range, heights: Float64Array.from(heights), models } };
}

/** A reduced model whose height can be changed. */
export interface MovingModel {
  /** Overwritten by every call. */
  readonly model: ReducedModel;
  /** Height within the table's range, mm: basis and control contour follow at once. Allocates nothing. */
  moveTo(height: number): void;
  /** What the stress at the edge needs, at the height last given; and stresses at places. Allocate nothing. */
  fillEdge(): void;
  fillPlaces(): void;
}

/** A number of an object or a list that changes with the height, and its values at the table's heights. */
interface Slot {
  readonly of: Record<string | number, number>;
  readonly key: string | number;
  readonly values: readonly number[];
}

/** An array and the same at the table's heights. */
interface Blend {
  readonly out: Float64Array;
  readonly from: readonly Float64Array[];
}

/** What of a moving model changes with the height, by when and how it is told. */
interface Motion {
  /** Straight lines in the height, told at once. */
  readonly straight: Slot[];
  /** Interpolated: for the stress at the edge, and for stresses at places. */
  readonly edge: { readonly slots: Slot[]; readonly arrays: Blend[] };
  readonly places: { readonly slots: Slot[]; readonly arrays: Blend[] };
}

/**
 * The model of a table as one that moves. Lengths of the basis and of all that scales with the pocket are straight lines in the height and told
 * exactly; arrays, axial stiffness and stress and the places of section points are interpolated (Lagrange in the logarithm of the height).
 */
export function createMovingModel({ heights: table, finer: _, ...first }: ReducedModel): MovingModel {
  if (table === undefined) throw new Error('a model of one height cannot be moved');
  const { heights, models } = table;
  const motion: Motion = { straight: [], edge: { slots: [], arrays: [] }, places: { slots: [], arrays: [] } };
  const model = modelInMotion(first, models, motion);
  const weights = new Float64Array(heights.length);
  const logs = heights.map(Math.log);
  const [low, high] = [heights[0]!, heights.at(-1)!];
  const fill = ({ slots, arrays }: Motion['edge']): void => {
    for (const { out, from } of arrays) {
      out.fill(0);
      for (let k = 0; k < weights.length; k++) {
        const weight = weights[k]!;
        const values = from[k]!;
        for (let i = 0; i < out.length; i++) out[i]! += weight * values[i]!;
      }
    }
    for (const { of, key, values } of slots) {
      let sum = 0;
      for (let k = 0; k < weights.length; k++) sum += weights[k]! * values[k]!;
      of[key] = sum;
    }
  };
  return {
    model,
    moveTo(height) {
      const at = Math.log(height);
      for (let k = 0; k < weights.length; k++) {
        let weight = 1;
        for (let j = 0; j < weights.length; j++) if (j !== k) weight *= (at - logs[j]!) / (logs[k]! - logs[j]!);
        weights[k] = weight;
      }
      const share = (height - low) / (high - low);
      for (const { of, key, values } of motion.straight)
        of[key] = values[0]! + share * (values[values.length - 1]! - values[0]!);
    },
    fillEdge: () => fill(motion.edge),
    fillPlaces: () => fill(motion.places),
  };
}

/** A copy of `first` whose numbers and arrays can follow the height; what they are is told to `motion`. */
function modelInMotion(
  first: Omit<ReducedModel, 'heights' | 'finer'>,
  models: readonly ReducedModel[],
  { straight, edge, places }: Motion,
): ReducedModel {
  // The recurrence is the same at all heights.
  const copy = copierWith(new Map([[models[0]!.basis.recurrence, first.basis.recurrence]]));
  const part = <Part>(of: (model: ReducedModel) => Part, slots: Slot[], arrays: Blend[]) =>
    copy(models.map(of), slots, arrays) as Part;
  const points = part((model) => model.places.points, places.slots, places.arrays);
  const ofLoads = part(
    ({ loads }) =>
      loads.map(
        ({ undisturbed, axialStress }) =>
          ({ undisturbed, axialStress }) as Pick<ReducedLoad, 'undisturbed' | 'axialStress'>,
      ),
    edge.slots,
    edge.arrays,
  );
  const atPlaces = part(({ loads }) => loads.map((load) => load.atPlaces), straight, places.arrays);
  const rest = part(({ places: { points: _, ...others } }) => others, straight, places.arrays);
  return {
    ...first,
    basis: part(({ basis }) => basis, straight, edge.arrays),
    responses: part(({ responses }) => responses, edge.slots, edge.arrays),
    // The same objects: their numbers move.
    loads: first.loads.map((load, l) =>
      Object.assign(ofLoads[l]!, { ...load, ...ofLoads[l]!, atPlaces: atPlaces[l]! }),
    ),
    places: { ...rest, points },
    contour: part(({ contour }) => contour, straight, edge.arrays),
  };
}

/**
 * Copies the first of several values of one shape, and tells which numbers and arrays of the copy change from one to the next. `known`: copies of
 * arrays, so that what is shared stays shared.
 */
function copierWith(known: Map<Float64Array, Float64Array>) {
  return function copy(values: readonly unknown[], slots: Slot[], arrays: Blend[]): unknown {
    const [one] = values;
    if (one instanceof Float64Array) {
      const made = known.get(one);
      if (made !== undefined) return made;
      const out = new Float64Array(one.length);
      known.set(one, out);
      arrays.push({ out, from: values as Float64Array[] });
      return out;
    }
    if (one instanceof Uint8Array)
      return one.map((_, i) => Math.min(...values.map((other) => (other as Uint8Array)[i]!)));
    if (typeof one !== 'object' || one === null) return one;
    const out: Record<string | number, unknown> | unknown[] = Array.isArray(one) ? [] : {};
    for (const key of Object.keys(one)) {
      const parts = values.map((value) => (value as Record<string, unknown>)[key]);
      const at = out as Record<string, unknown>;
      at[key] = copy(parts, slots, arrays);
      if (typeof parts[0] === 'number' && parts.some((part) => part !== parts[0]))
        slots.push({ of: at as Record<string, number>, key, values: parts as number[] });
    }
    return out;
  };
}

/** The model of one height of a table, by itself. */
export function modelAt(model: ReducedModel, height: number): ReducedModel {
  const moving = createMovingModel(model);
  moving.moveTo(height);
  moving.fillEdge();
  moving.fillPlaces();
  return moving.model;
}
