/** Of every engine that this runs on; named here because no library of types is asked for. */
declare const TextEncoder: new () => { encode(text: string): Uint8Array };

/** Bytes of a block; the last eight of all hold the length in bits. */
const blockSize = 64;

/** The first 32 bits behind the point: further off rounded than an engine's cube root is from another's. */
const fraction = (value: number): number => Math.floor((value % 1) * 2 ** 32) | 0;

const turned = (word: number, by: number): number => (word >>> by) | (word << (32 - by));

const primes: number[] = [];
for (let n = 2; primes.length < 64; n++) if (primes.every((prime) => n % prime !== 0)) primes.push(n);
const constants = Int32Array.from(primes, (prime) => fraction(Math.cbrt(prime)));

/**
 * SHA-256 (FIPS 180-4) of a text in UTF-8, as 64 lower-case hexadecimal digits. Of our own, as what engines bring along (`crypto.subtle`) answers later only and
 * on pages of a secure address only, and briefs and tasks are made at once and anywhere.
 */
export function sha256Hex(text: string): string {
  const hash = Int32Array.from(primes.slice(0, 8), (prime) => fraction(Math.sqrt(prime)));
  const written = new TextEncoder().encode(text);
  const bytes = new Uint8Array(blockSize * Math.ceil((written.length + 9) / blockSize));
  bytes.set(written);
  bytes[written.length] = 0x80;
  const view = new DataView(bytes.buffer);
  view.setUint32(bytes.length - 8, written.length / 2 ** 29);
  view.setUint32(bytes.length - 4, written.length << 3);

  const words = new Int32Array(64);
  for (let from = 0; from < bytes.length; from += blockSize) {
    for (let t = 0; t < 16; t++) words[t] = view.getInt32(from + 4 * t);
    for (let t = 16; t < 64; t++) {
      const [early, late] = [words[t - 15]!, words[t - 2]!];
      const small0 = turned(early, 7) ^ turned(early, 18) ^ (early >>> 3);
      const small1 = turned(late, 17) ^ turned(late, 19) ^ (late >>> 10);
      words[t] = words[t - 16]! + small0 + words[t - 7]! + small1;
    }
    let [a, b, c, d, e, f, g, h] = hash as unknown as [number, number, number, number, number, number, number, number];
    for (let t = 0; t < 64; t++) {
      const large1 = turned(e, 6) ^ turned(e, 11) ^ turned(e, 25);
      const first = h + large1 + ((e & f) ^ (~e & g)) + constants[t]! + words[t]!;
      const large0 = turned(a, 2) ^ turned(a, 13) ^ turned(a, 22);
      const second = large0 + ((a & b) ^ (a & c) ^ (b & c));
      [h, g, f, e, d, c, b, a] = [g, f, e, (d + first) | 0, c, b, a, (first + second) | 0];
    }
    [a, b, c, d, e, f, g, h].forEach((value, i) => {
      hash[i]! += value;
    });
  }
  return Array.from(hash, (word) => (word >>> 0).toString(16).padStart(8, '0')).join('');
}
