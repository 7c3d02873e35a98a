import { placeIn, type SectionMesh } from '../../mesh/quad/index.js';
import { best, byBestPlaces, lengthOf } from '../condensed/index.js';
import type { TeeMesh, TeePart } from './tee-mesh.js';

/** An element column of a part, and the place along it, from -1 to 1. */
export interface ColumnPlace {
  readonly part: TeePart;
  readonly column: number;
  readonly a: number;
}

/** Where a column of section points stands: within a part, or where two meet, which both tell of it. */
export type Station = readonly ColumnPlace[];

/** Element number in the mesh. */
export function elementOf({ parts }: TeeMesh, part: TeePart, column: number, row: number): number {
  const block = parts[part]!;
  return block.first + row * block.columns + column;
}

/** Where a part's end goes on in another. */
export const start = (part: TeePart): ColumnPlace => ({ part, column: 0, a: -1 });
export const end = (part: TeePart, { parts }: TeeMesh): ColumnPlace => ({
  part,
  column: parts[part]!.columns - 1,
  a: 1,
});

/** The stations between two ends of a part, on which any limit falls. */
export interface StationRange {
  /** Row whose elements, at `b` through them, tell how far apart stations are. */
  readonly row: number;
  readonly b: number;
  /** Least distance between stations around a place, mm. */
  readonly distance: (x: number, y: number) => number;
  /** What a station must keep within. */
  readonly within?: (x: number, y: number) => boolean;
}

/**
 * Stations at the places along a part's elements where stresses are best, and at both of its ends; `first` and `last`: what meets there. Where
 * a part goes on beyond what is wanted, the last station stands on the limit.
 */
export function stationsOf(
  tee: TeeMesh,
  part: TeePart,
  { row, b, distance, within = () => true }: StationRange,
  first: Station = [start(part)],
  last: Station = [end(part, tee)],
): readonly Station[] {
  const { mesh } = tee.body;
  const placeOf = ([at]: Station) => placeIn(mesh, elementOf(tee, at!.part, at!.column, row), at!.a, b);
  const inside = Array.from({ length: tee.parts[part]!.columns }, (_, column) =>
    [-best, best].map((a): Station => [{ part, column, a }]),
  );
  const all = [first, ...inside.flat(), last];
  const kept = all.map((station) => within(...placeOf(station)));
  const stations: Station[] = [];
  let [lastX, lastY] = [Number.POSITIVE_INFINITY, 0];
  all.forEach((station, k) => {
    if (k > 0 && kept[k] !== kept[k - 1]) stations.push(limitStation(tee, part, { row, b, within }));
    if (!kept[k]) return;
    const [x, y] = placeOf(station);
    if (k > 0 && k + 1 < all.length && Math.hypot(x - lastX, y - lastY) < distance(x, y)) return;
    stations.push(station);
    [lastX, lastY] = [x, y];
  });
  return stations;
}

/** A place along a part, and how much of the stress at a station it tells. */
export interface TellingPlace extends ColumnPlace {
  readonly share: number;
}

/** By what places the stress at a station is told, at `b` through a row: those where it is best. Where two parts meet, and stress may turn a corner, each tells half of it by its own. */
export function placesTelling(tee: TeeMesh, station: Station, row: number, b: number): readonly TellingPlace[] {
  const sizeOf = ({ part, column }: ColumnPlace) => lengthOf(tee.body.mesh, elementOf(tee, part, column, row), b);
  return station.flatMap((own) => {
    const next = beside(tee, own);
    const side = next && ((next.column - own.column) as -1 | 1);
    return byBestPlaces(own.a, sizeOf(own), side && { side, size: sizeOf(next!) }).map(({ ofNext, at, share }) => ({
      ...(ofNext ? next! : own),
      a: at,
      share: share / station.length,
    }));
  });
}

/** The nearest column beside a place in the same part. */
function beside({ parts }: TeeMesh, { part, column, a }: ColumnPlace): ColumnPlace | undefined {
  const { columns } = parts[part]!;
  if (columns === 1) return undefined;
  const before = column === columns - 1 || (a < 0 && column > 0);
  return { part, column: before ? column - 1 : column + 1, a };
}

/** Where a part meets its limit. */
function limitStation(
  tee: TeeMesh,
  part: TeePart,
  { row, b, within }: Pick<Required<StationRange>, 'row' | 'b' | 'within'>,
): Station {
  const { columns } = tee.parts[part]!;
  /** How far along the part, in columns. */
  const isKept = (along: number) => within(...placeAlong(tee.body.mesh, tee, { part, row, b }, along));
  let [from, to] = [0, columns];
  const startsKept = isKept(0);
  for (let step = 0; step < 50; step++) {
    const middle = (from + to) / 2;
    if (isKept(middle) === startsKept) from = middle;
    else to = middle;
  }
  return [columnAt(part, columns, startsKept ? from : to)];
}

function columnAt(part: TeePart, columns: number, along: number): ColumnPlace {
  const column = Math.min(columns - 1, Math.floor(along));
  return { part, column, a: 2 * (along - column) - 1 };
}

function placeAlong(
  mesh: SectionMesh,
  tee: TeeMesh,
  { part, row, b }: { readonly part: TeePart; readonly row: number; readonly b: number },
  along: number,
): readonly [number, number] {
  const { column, a } = columnAt(part, tee.parts[part]!.columns, along);
  return placeIn(mesh, elementOf(tee, part, column, row), a, b);
}
