import { type FramedFields, framedCount, plainFrame } from '../edge/index.js';
import {
  type ByFields,
  edgePart,
  type Host,
  isMirrored,
  type LoadName,
  type PlaceMaps,
  type ReducedModel,
  type SectionPoint,
} from '../host/index.js';
import type { ActingLoad } from '../stress/index.js';
import { judgedDegree, judgedStill, placeMap } from './judged-maps.js';
import type { JudgedPoint } from './judged-points.js';

/** What the coefficients of places are multiplied by at most. */
export interface MomentReach {
  /** Framed moments, response by response, of the symmetric class (or of all fields) and of the other. */
  readonly moments: readonly (readonly Float64Array[])[];
  /** Undisturbed stresses of the loads that act. */
  readonly loads: Map<LoadName, number>;
}

/** What rounding takes from one product at most, as a share of the strength at the point: a hundred of them add up, to less than 0.05 % of a load factor in the starter's joint. */
const rounding = 1e-5;

export function noReach(model: ReducedModel, acting: readonly ActingLoad[]): MomentReach {
  const { degree } = model.places.basis;
  const moments = model.responses.map(() => partsOf(model).map((of) => new Float64Array(framedCount(of, degree))));
  return { moments, loads: new Map(acting.map(({ name }) => [name, 0])) };
}

/** The model's edge part with rows of judged points as its places, coefficients rounded to powers of two. */
export function roundedPlaces(
  model: ReducedModel,
  host: Host,
  rows: readonly (readonly JudgedPoint[])[],
  { moments, loads }: MomentReach,
): ReducedModel {
  const points = rows.flat();
  const bears = points.map(({ at }) => leastStrength(host, at));
  const parts = partsOf(model);
  const maps = model.places.change.map((map, r) =>
    parts.map((of, part) => {
      const most = moments[r]![part]!;
      const { addRow } = placeMap(model.places, of, fieldsOf(map, of));
      return points.map((point, i) =>
        components.map((c) => {
          const row = new Float64Array(framedCount(of, judgedDegree(model.places, point)));
          addRow(point, c, row);
          return row.map((value, j) => round(value, (rounding * bears[i]!) / most[j]!));
        }),
      );
    }),
  );
  const degrees = points.map((point, i) => {
    let degree = judgedDegree(model.places, point);
    const needs = (least: number) =>
      maps.some((own) =>
        own.some((rowsOf, part) =>
          rowsOf[i]!.some((row) => row.subarray(framedCount(parts[part]!, least)).some(Boolean)),
        ),
      );
    while (degree > 1 && !needs(degree - 1)) degree--;
    return degree;
  });
  const cut = (rowsOf: readonly (readonly Float64Array[])[], of: FramedFields) =>
    joined(rowsOf.flatMap((own, i) => own.map((row) => row.subarray(0, framedCount(of, degrees[i]!)))));
  /** One of the arrays of stresses at all places, at these points. */
  const still = (atPlaces: Float64Array) =>
    Float64Array.from({ length: 3 * points.length }, (_, i) =>
      judgedStill(atPlaces, points[Math.floor(i / 3)]!, i % 3),
    );
  const { strained } = model.places;
  return {
    ...edgePart(model),
    loads: model.loads.map((load) => ({
      ...load,
      atPlaces: still(load.atPlaces).map((value, i) =>
        round(value, (rounding * bears[Math.floor(i / 3)]!) / (loads.get(load.name) ?? 0)),
      ),
    })),
    places: {
      ...model.places,
      points: points.map(({ at }) => at),
      rows: rows.map(({ length }) => length),
      degrees,
      frame: byFields(
        parts.map((of, part) =>
          moments.some((own) => own[part]!.some(Boolean))
            ? fieldsOf(model.places.frame, of)
            : plainFrame(moments[0]![part]!.length),
        ),
      ),
      ...(strained && { strained: strained.map(still) }),
      change: maps.map((own) => byFields(own.map((rowsOf, part) => cut(rowsOf, parts[part]!)))),
    },
  };
}

/** Of `(n, t, nt)`. */
const components = [0, 1, 2] as const;

const partsOf = (model: ReducedModel): readonly FramedFields[] =>
  isMirrored(model) ? ['symmetric', 'antisymmetric'] : ['whole'];

const fieldsOf = (fields: ByFields, of: FramedFields): Float64Array =>
  'whole' in fields ? fields.whole : fields[of as 'symmetric' | 'antisymmetric'];

const byFields = ([first, second]: readonly Float64Array[]): PlaceMaps['change'][number] =>
  second === undefined ? { whole: first! } : { symmetric: first!, antisymmetric: second };

function leastStrength(host: Host, at: SectionPoint): number {
  const { tension, shear, principal, kinking = Number.POSITIVE_INFINITY } = host.strengthAt(at);
  return Math.min(tension, shear, principal, kinking);
}

/** To the next multiple of a power of two of `step` at most; 0 where any step would do. */
function round(value: number, step: number): number {
  if (step === Number.POSITIVE_INFINITY) return 0;
  const whole = 2 ** Math.floor(Math.log2(step));
  return whole * Math.round(value / whole);
}

function joined(arrays: readonly Float64Array[]): Float64Array {
  const out = new Float64Array(arrays.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const array of arrays) {
    out.set(array, at);
    at += array.length;
  }
  return out;
}
