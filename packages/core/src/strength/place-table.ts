import { type FramedFields, framedCount } from '../edge/index.js';
import { isMirrored, type ReducedModel, type SectionPoint } from '../host/index.js';
import type { ActingLoad } from '../stress/index.js';
import { judgedDegree, judgedStill, placeMap } from './judged-maps.js';
import type { JudgedPoint } from './judged-points.js';

/** Judged points in the order of the buffers: those that are always looked at come first, in rows. */
export interface PlaceOrder {
  readonly points: readonly JudgedPoint[];
  /** How many of those come before each row, and in the end of all. */
  readonly rows: readonly number[];
  /** Whether a point's tangential stress is wanted as well. */
  readonly tangential: (point: SectionPoint) => boolean;
}

/** Normal, shear, tangential among the model's `(n, t, nt)`. */
export const components = [0, 2, 1] as const;

/** Undisturbed stresses of one load: of the symmetric class and of the other, or (in `even`) all at once. */
interface StillStress {
  readonly even: Float64Array;
  readonly odd: Float64Array;
}

/** What tells the stresses of judged points, and how they lie in buffers. */
export interface PlaceTable {
  /** Where a point's stresses begin: normal, shear and, only where it is wanted, tangential. */
  readonly starts: Int32Array;
  readonly degrees: readonly number[];
  /** Of the symmetric class, or of all fields, and of the other class. */
  readonly parts: readonly PartTable[];
  /** Response by response, part by part. */
  readonly maps: readonly (readonly JudgedMap[])[];
  /** Load by load. */
  readonly still: readonly StillStress[];
  /** Of a unit of strain along the channel, response by response; empty where none strains so. */
  readonly strained: readonly Float64Array[];
}

export interface PartTable {
  readonly of: FramedFields;
  /** Framed moments in all, and those that a bound begins with. */
  readonly most: number;
  readonly few: number;
}

/** One part of one response's map, rows in the order of the buffers. */
export interface JudgedMap {
  readonly values: Float64Array;
  /** Where each row begins. */
  readonly offsets: Int32Array;
  /** Length of each row beyond the few moments that a bound begins with. */
  readonly rest: Float64Array;
}

/** Degree of the moments that a bound begins with: leaves 0 to a quarter of the points of random joints that could be passed over, 4 0 to a sixth, 8 a tenth. */
const boundDegree = 4;

export function placeTable(model: ReducedModel, loads: readonly ActingLoad[], order: PlaceOrder): PlaceTable {
  const { places } = model;
  const mirrored = isMirrored(model);
  const { points, tangential } = order;
  const starts = new Int32Array(points.length + 1);
  points.forEach((p, i) => {
    starts[i + 1] = starts[i]! + (tangential(p.at) ? 3 : 2);
  });
  const kinds = mirrored ? (['symmetric', 'antisymmetric'] as const) : (['whole'] as const);
  const rows = {
    starts,
    degrees: points.map((point) => judgedDegree(places, point)),
    parts: kinds.map((of) => ({
      of,
      most: framedCount(of, places.basis.degree),
      few: framedCount(of, Math.min(boundDegree, places.basis.degree)),
    })),
  };
  return {
    ...rows,
    maps: places.change.map((map) =>
      'whole' in map
        ? [mapOf(model, order, rows, 0, map.whole)]
        : [mapOf(model, order, rows, 0, map.symmetric), mapOf(model, order, rows, 1, map.antisymmetric)],
    ),
    still: loads.map((load) => stillOf(load, places.points.length, order, starts, mirrored)),
    strained: places.strained?.map((values) => pointsOf(values, 0, order, starts)) ?? [],
  };
}

function mapOf(
  { places }: ReducedModel,
  { points }: PlaceOrder,
  table: Pick<PlaceTable, 'starts' | 'degrees' | 'parts'>,
  part: number,
  all: Float64Array,
): JudgedMap {
  const { of, few } = table.parts[part]!;
  const { starts } = table;
  const map = placeMap(places, of, all);
  const rows = starts[points.length]!;
  const offsets = new Int32Array(rows + 1);
  points.forEach((_, i) => {
    for (let row = starts[i]!; row < starts[i + 1]!; row++)
      offsets[row + 1] = offsets[row]! + framedCount(of, table.degrees[i]!);
  });
  const values = new Float64Array(offsets[rows]!);
  points.forEach((point, i) => {
    for (let row = starts[i]!, c = 0; row < starts[i + 1]!; row++, c++)
      map.addRow(point, components[c]!, values.subarray(offsets[row]!, offsets[row + 1]!));
  });
  const rest = Float64Array.from({ length: rows }, (_, row) =>
    lengthFrom(values.subarray(offsets[row]!, offsets[row + 1]!), few),
  );
  return { values, offsets, rest };
}

function stillOf(
  { atPlaces }: ActingLoad,
  places: number,
  order: PlaceOrder,
  starts: Int32Array,
  mirrored: boolean,
): StillStress {
  const [even, odd] = [0, 3 * places].map((offset) => pointsOf(atPlaces, offset, order, starts)) as [
    Float64Array,
    Float64Array,
  ];
  return mirrored ? { even, odd } : { even: even.map((value, i) => value + odd[i]!), odd: new Float64Array(0) };
}

/** Length of moments, or of a row over them, from number `first` on. */
export function lengthFrom(moments: Float64Array, first: number): number {
  let sum = 0;
  for (let j = first; j < moments.length; j++) sum += moments[j]! * moments[j]!;
  return Math.sqrt(sum);
}

/** Stresses at the judged points, in the order of the buffers, from those at the model's own. */
function pointsOf(values: Float64Array, offset: number, { points }: PlaceOrder, starts: Int32Array): Float64Array {
  const out = new Float64Array(starts[points.length]!);
  points.forEach((point, i) => {
    for (let c = 0; c < starts[i + 1]! - starts[i]!; c++)
      out[starts[i]! + c] = judgedStill(values, point, offset + components[c]!);
  });
  return out;
}
