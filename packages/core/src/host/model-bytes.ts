import { InputError } from '../errors.js';
import { type ReducedModel, reducedModelVersion } from './reduced-model.js';

/**
 * A reduced model as bytes that Node and browsers read and write alike, every number to the last bit, little-endian:
 *
 * | bytes | |
 * | --- | --- |
 * | 8 | `LUMENFRO` |
 * | 4 | version (`reducedModelVersion`) |
 * | 4 | checksum of all that follows |
 * | 4 | length of the text that follows |
 * | … | ASCII JSON: what was reduced (`source`), the model with its long arrays as `{ f64: [start, length] }`; padded with blanks to 8 |
 * | … | 64-bit numbers |
 *
 * An array that several parts of a model share stands among the numbers once, and is shared again when it is read.
 */
const magic = 'LUMENFRO';
const headSize = 20;

/** A long array in the text: place and length among the numbers; or a number that JSON has no word for. */
type Stand = { readonly f64: readonly [number, number] } | { readonly number: string };

/**
 * A reduced model as bytes for a file, a message or a browser's store; `decodeModel` reads them again.
 *
 * @param source what was reduced, in any form that tells one joint from another: a hash, say
 */
export function encodeModel(source: string, model: ReducedModel): Uint8Array {
  /** Where each stands, in their order. */
  const arrays = new Map<Float64Array, number>();
  let count = 0;
  const stand = (value: unknown): unknown => {
    if (value instanceof Float64Array) {
      const at = arrays.get(value) ?? count;
      if (at === count) count += value.length;
      arrays.set(value, at);
      return { f64: [at, value.length] } satisfies Stand;
    }
    if (value instanceof Uint8Array) return { u8: [...value] };
    if (typeof value === 'number' && (!Number.isFinite(value) || Object.is(value, -0)))
      return { number: Object.is(value, -0) ? '-0' : String(value) } satisfies Stand;
    if (Array.isArray(value)) return value.map(stand);
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, stand(part)]));
  };
  const text = JSON.stringify({ source, model: stand(model) });
  const plain = toBytes(text);
  const padded = headSize + plain.length + ((8 - ((headSize + plain.length) % 8)) % 8);
  const bytes = new Uint8Array(padded + 8 * count).fill(0x20, 0, padded);
  const view = new DataView(bytes.buffer);
  bytes.set(toBytes(magic));
  view.setUint32(8, reducedModelVersion, true);
  view.setUint32(16, padded - headSize, true);
  bytes.set(plain, headSize);
  let at = padded;
  for (const values of arrays.keys())
    for (let i = 0; i < values.length; i++, at += 8) view.setFloat64(at, values[i]!, true);
  view.setUint32(12, checksum(bytes.subarray(16)), true);
  return bytes;
}

/**
 * The model of `encodeModel`.
 *
 * @throws InputError for bytes that are damaged, cut, foreign, of another version or of another source
 */
export function decodeModel(source: string, bytes: Uint8Array): ReducedModel {
  const refuse = (expected: string, received: string) =>
    new InputError({ path: 'model', expected, received, remedy: 'reduce the joint again' });
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < headSize || toText(bytes.subarray(0, 8)) !== magic) throw refuse('a reduced model', 'other bytes');
  const version = view.getUint32(8, true);
  if (version !== reducedModelVersion)
    throw refuse(`a reduced model of version ${reducedModelVersion}`, `version ${version}`);
  if (view.getUint32(12, true) !== checksum(bytes.subarray(16))) throw refuse('a sound model', 'damaged bytes');
  const start = headSize + view.getUint32(16, true);
  const { source: own, model } = JSON.parse(toText(bytes.subarray(headSize, start))) as {
    source: string;
    model: unknown;
  };
  if (own !== source) throw refuse('the model of this joint', 'that of another');
  const numbers = numbersIn(bytes.subarray(start));
  const shared = new Map<number, Float64Array>();
  const restore = (value: unknown): unknown => {
    if (typeof value !== 'object' || value === null) return value;
    if (Array.isArray(value)) return value.map(restore);
    if ('f64' in value) {
      const [from, length] = value.f64 as [number, number];
      const values = shared.get(from) ?? numbers.slice(from, from + length);
      if (length > 0) shared.set(from, values);
      return values;
    }
    if ('u8' in value) return Uint8Array.from(value.u8 as number[]);
    if ('number' in value) return Number(value.number);
    return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, restore(part)]));
  };
  return restore(model) as ReducedModel;
}

/** JSON as bytes of ASCII: what is beyond it is escaped. */
function toBytes(json: string): Uint8Array {
  const escaped = json.replace(/[\u0080-\uffff]/g, (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`);
  return Uint8Array.from(escaped, (c) => c.charCodeAt(0));
}

function toText(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let at = 0; at < bytes.length; at += 4096) parts.push(String.fromCharCode(...bytes.subarray(at, at + 4096)));
  return parts.join('');
}

const littleEndian = new Uint8Array(Uint32Array.of(1).buffer)[0] === 1;

/** Numbers that may lie anywhere in a larger buffer, to be copied out. */
function numbersIn(bytes: Uint8Array): Float64Array {
  if (littleEndian && bytes.byteOffset % 8 === 0)
    return new Float64Array(bytes.buffer, bytes.byteOffset, bytes.length / 8);
  // A Buffer's `slice` would copy nothing.
  const own = new Uint8Array(bytes);
  if (!littleEndian) reverse(own);
  return new Float64Array(own.buffer);
}

/** Turns every 8 bytes round, for machines that write the high byte first. */
function reverse(bytes: Uint8Array): void {
  for (let at = 0; at < bytes.length; at += 8) bytes.subarray(at, at + 8).reverse();
}

/**
 * MurmurHash3 of 32 bits (Appleby, public domain), whole words: finds every change within one word, any other but for one in four thousand
 * million. Four times as fast as CRC-32.
 */
export function checksum(bytes: Uint8Array): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  let h = 0;
  for (let i = 0; i + 4 <= bytes.length; i += 4) {
    const k = Math.imul(view.getUint32(i, true), 0xcc9e2d51);
    h ^= Math.imul((k << 15) | (k >>> 17), 0x1b873593);
    h = (Math.imul((h << 13) | (h >>> 19), 5) + 0xe6546b64) | 0;
  }
  h ^= bytes.length;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}
