import { type Host, hostKind, type ReducedModel, splitsAt } from '../host/index.js';
import type { FailureCriterion } from './first-failure.js';
import { type JudgedPoint, judgedRows } from './judged-points.js';
import type { FailurePlace } from './place-strengths.js';
import type { PlaceOrder } from './place-table.js';

/** One criterion along one row of points. */
export interface Check {
  readonly place: FailurePlace;
  readonly criterion: FailureCriterion;
  readonly tension: number;
  readonly shear: number;
  /** Of what kinks, by the points' places in the buffers: along a row fibres lean more and less. */
  readonly kinking?: Float64Array;
  /** Number of the row in the buffers' order, and those of its points. `between[k]` to before `between[k + 1]` lie between points k and k + 1 of `always`. */
  readonly row: number;
  readonly always: readonly number[];
  readonly between: readonly number[];
}

/** The judged points and what is checked of them. */
export function layOut(model: ReducedModel, host: Host, keep: (x: number, y: number) => boolean) {
  const { places } = hostKind(host.kind);
  const judged = judgedRows(model, keep);
  const rows = judged.map((row) => {
    const { stride } = places[row[0]!.at.place]!;
    return {
      always: row.filter((_, k) => isAlways(k, row.length, stride)),
      others: row.filter((_, k) => !isAlways(k, row.length, stride)),
      stride,
    };
  });
  const always = rows.flatMap((row) => row.always);
  const order: PlaceOrder = {
    points: [...always, ...rows.flatMap((row) => row.others)],
    rows: startsOf(rows.map((row) => row.always.length)),
    tangential: (p) => {
      const { principal, kinking } = host.strengthAt(p);
      return Number.isFinite(principal) || kinking !== undefined;
    },
  };
  const placeOf = new Map(order.points.map((p, i) => [p, i]));
  const checks = rows.flatMap((row, r) => checksOf(row, r, placeOf, host));
  return { rows: judged, order, placeOf, checks };
}

/** Numbers of a check's points that are not always looked at. */
export const othersOf = ({ between }: Check): number[] =>
  Array.from({ length: between.at(-1)! - between[0]! }, (_, k) => between[0]! + k);

/** Where parts of given lengths begin one after the other, and where the last one ends. */
function startsOf(lengths: readonly number[]): number[] {
  const starts = [0];
  for (const length of lengths) starts.push(starts.at(-1)! + length);
  return starts;
}

/** Of a row of points: those that are always looked at, every `stride`th and the last, and the others. */
interface Row {
  readonly always: readonly JudgedPoint[];
  readonly others: readonly JudgedPoint[];
  readonly stride: number;
}

const isAlways = (k: number, length: number, stride: number): boolean => k % stride === 0 || k === length - 1;

function checksOf(row: Row, number: number, placeOf: ReadonlyMap<JudgedPoint, number>, host: Host): Check[] {
  const { at } = row.always[0]!;
  const { place } = at;
  const { tension, shear, principal, kinking } = host.strengthAt(at);
  const always = row.always.map((p) => placeOf.get(p)!);
  // The others of a row lie one after the other in the buffers.
  const start = row.others.length > 0 ? placeOf.get(row.others[0]!)! : 0;
  const between = always.map((_, k) => start + Math.min(row.others.length, k * (row.stride - 1)));
  const unlimited = Number.POSITIVE_INFINITY;
  const common = { place, tension: unlimited, shear: unlimited, row: number, always, between };
  const checks: Check[] = [];
  if (Number.isFinite(tension)) checks.push({ ...common, criterion: 'delamination', tension, shear });
  if (Number.isFinite(principal))
    checks.push({ ...common, place: splitsAt(host.kind, place), criterion: 'splitting', tension: principal });
  if (kinking !== undefined) {
    const strengths = new Float64Array(placeOf.size);
    for (const p of [...row.always, ...row.others])
      strengths[placeOf.get(p)!] = host.strengthAt(p.at).kinking ?? unlimited;
    checks.push({ ...common, criterion: 'kinking', kinking: strengths });
  }
  return checks;
}
