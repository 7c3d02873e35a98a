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

/** The models of a ratio of 2.7 between the largest and the least height: 4 (see `test/heights.test.ts` of the repository). */
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

/**
 * The model of a table as one that moves. Lengths of the basis and of all that scales with the pocket are straight lines in the height and told
 * exactly; arrays, axial stiffness and stress and the places of section points are interpolated (Lagrange in the logarithm of the height).
 */
export function createMovingModel({ heights: table, finer: _, ...first }: ReducedModel): MovingModel {
  if (table === undefined) throw new Error('a model of one height cannot be moved');
  const { heights, models } = table;
  const straight: Slot[] = [];
  const curved: Slot[] = [];
  const curvedAtEdge: Slot[] = [];
  const edge: Blend[] = [];
  const places: Blend[] = [];
  const known = new Map<Float64Array, Float64Array>();

  const copy = (values: readonly unknown[], slots: Slot[], arrays: Blend[]): unknown => {
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
  const part = <Key extends keyof ReducedModel>(key: Key, slots: Slot[], arrays: Blend[]) =>
    copy(
      models.map((model) => model[key]),
      slots,
      arrays,
    ) as ReducedModel[Key];

  const { recurrence } = first.basis;
  // The same at all heights.
  known.set(models[0]!.basis.recurrence, recurrence);
  const points = copy(
    models.map(({ places: { points } }) => points),
    curved,
    places,
  ) as ReducedModel['places']['points'];
  const acting = models.map((model) =>
    model.loads.map(({ undisturbed, axialStress }) => ({ undisturbed, axialStress })),
  );
  const stills = models.map((model) => model.loads.map(({ atPlaces }) => atPlaces));
  const ofLoads = copy(acting, curvedAtEdge, edge) as Pick<ReducedLoad, 'undisturbed' | 'axialStress'>[];
  const atPlaces = copy(stills, straight, places) as Float64Array[];
  const rest = copy(
    models.map(({ places: { points: _, ...others } }) => others),
    straight,
    places,
  ) as Omit<ReducedModel['places'], 'points'>;
  const model: ReducedModel = {
    ...first,
    basis: part('basis', straight, edge),
    responses: part('responses', curvedAtEdge, edge),
    // The same objects: their numbers move.
    loads: first.loads.map((load, l) =>
      Object.assign(ofLoads[l]!, { ...load, ...ofLoads[l]!, atPlaces: atPlaces[l]! }),
    ),
    places: { ...rest, points },
    contour: part('contour', straight, edge),
  };

  const weights = new Float64Array(heights.length);
  const logs = heights.map(Math.log);
  const [low, high] = [heights[0]!, heights.at(-1)!];
  const blend = (all: readonly Blend[]): void => {
    for (const { out, from } of all) {
      out.fill(0);
      for (let k = 0; k < weights.length; k++) {
        const weight = weights[k]!;
        const values = from[k]!;
        for (let i = 0; i < out.length; i++) out[i]! += weight * values[i]!;
      }
    }
  };
  const bend = (slots: readonly Slot[]): void => {
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
      for (const { of, key, values } of straight)
        of[key] = values[0]! + share * (values[values.length - 1]! - values[0]!);
    },
    fillEdge() {
      blend(edge);
      bend(curvedAtEdge);
    },
    fillPlaces() {
      blend(places);
      bend(curved);
    },
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
