import { decodeModel, encodeModel, type PlaceMaps, type ReducedModel } from '@lumenfront/core';

const source = 'report';
const headSize = 4;
const numberSize = 8;
/** Of a whole number. */
const wholeSize = 4;

type FieldMap = PlaceMaps['change'][number];

/**
 * A reduced model as bytes that deflate well, every number to the last bit. Maps of places, most of it, are multiples of powers of two, those of one
 * column of much the same size: they stand column by column, as whole numbers of what all of a column are multiples of. Bytes of all
 * numbers are sorted by their place in a number, so that those of numbers with few digits stand in rows of zeros.
 */
export function packModel(model: ReducedModel): Uint8Array<ArrayBuffer> {
  const wholes: number[] = [];
  const change = model.places.change.map((map) =>
    eachPart(map, (values, part) => inColumns(values, columnsOf(model.places, part, values.length), wholes)),
  );
  const plain = encodeModel(source, { ...model, places: { ...model.places, change } });
  const bytes = new Uint8Array(headSize + plain.length + wholeSize * wholes.length);
  new DataView(bytes.buffer).setUint32(0, plain.length, true);
  bytes.set(sorted(plain, numberSize, 'apart'), headSize);
  bytes.set(sorted(new Uint8Array(Uint32Array.from(wholes).buffer), wholeSize, 'apart'), headSize + plain.length);
  return bytes;
}

export function unpackModel(bytes: Uint8Array): ReducedModel {
  const end = headSize + new DataView(bytes.buffer, bytes.byteOffset).getUint32(0, true);
  const model = decodeModel(source, sorted(bytes.subarray(headSize, end), numberSize, 'together'));
  const wholes = new Uint32Array(sorted(bytes.subarray(end), wholeSize, 'together').buffer);
  let at = 0;
  const change = model.places.change.map((map) =>
    eachPart(map, (packed, part) => {
      if (Number.isNaN(packed[0])) return packed.slice(1);
      const values = new Float64Array(packed[0]!);
      columnsOf(model.places, part, values.length).forEach((column, c) => {
        const unit = packed[1 + c]!;
        for (const place of column) values[place] = unit * fromWhole(wholes[at++]!);
      });
      return values;
    }),
  );
  return { ...model, places: { ...model.places, change } };
}

/** How many there are, then what each column's are multiples of; or NaN, then the values as they are, where those have too many digits. */
function inColumns(values: Float64Array, columns: readonly number[][], wholes: number[]): Float64Array {
  const units = columns.map((column) => column.reduce((unit, place) => unitOf(values[place]!, unit), 1));
  const own = columns.flatMap((column, c) => column.map((place) => values[place]! / units[c]!));
  if (!own.every((whole) => Math.abs(whole) < 2 ** 31)) return joined([Number.NaN], values);
  for (const whole of own) wholes.push(toWhole(whole));
  return joined([values.length], units);
}

function joined(first: ArrayLike<number>, then: ArrayLike<number>): Float64Array {
  const out = new Float64Array(first.length + then.length);
  out.set(first);
  out.set(then, first.length);
  return out;
}

/** Small ones of either sign first: 0, -1, 1, -2, ... */
const toWhole = (whole: number): number => (whole < 0 ? -2 * whole - 1 : 2 * whole);
const fromWhole = (coded: number): number => (coded % 2 === 1 ? -(coded + 1) / 2 : coded / 2);

/** The largest power of two, `most` at most, that a number is a multiple of. */
function unitOf(value: number, most: number): number {
  let unit = most;
  while (unit > 0 && !Number.isInteger(value / unit)) unit /= 2;
  return unit;
}

/** Places of each column's numbers in a map; one number a column where its rows are not those of points and components. */
function columnsOf({ degrees }: PlaceMaps, part: string, length: number): readonly number[][] {
  const counts = degrees.flatMap((degree) => new Array<number>(components).fill(countOf(part, degree)));
  const rows = counts.reduce((sum, count) => sum + count, 0) === length ? counts : [length];
  const columns = Array.from(
    { length: components * rows.reduce((most, count) => Math.max(most, count), 0) },
    (): number[] => [],
  );
  let at = 0;
  rows.forEach((count, r) => {
    for (let j = 0; j < count; j++) columns[components * j + (r % components)]!.push(at++);
  });
  return columns;
}

/** Stresses `(n, t, nt)` at a point. */
const components = 3;

/** Framed moments up to a degree. */
const countOf = (part: string, degree: number): number =>
  part === 'whole' ? 4 * degree - 1 : part === 'symmetric' ? 2 * degree : 2 * degree - 1;

const eachPart = (map: FieldMap, change: (values: Float64Array, part: string) => Float64Array): FieldMap =>
  Object.fromEntries(Object.entries(map).map(([part, values]) => [part, change(values, part)])) as unknown as FieldMap;

/** First bytes of all numbers, then second ones, and so on; or back again. */
function sorted(bytes: Uint8Array, size: number, way: 'apart' | 'together'): Uint8Array<ArrayBuffer> {
  const out = new Uint8Array(bytes.length);
  const count = bytes.length / size;
  for (let i = 0; i < count; i++)
    for (let place = 0; place < size; place++) {
      const [together, apart] = [size * i + place, count * place + i];
      if (way === 'apart') out[apart] = bytes[together]!;
      else out[together] = bytes[apart]!;
    }
  return out;
}
