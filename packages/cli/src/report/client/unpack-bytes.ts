/// <reference lib="dom" />

/** The bytes, or those of the text, that `packBytes` packed. */
export async function unpackBytes(packed: string): Promise<Uint8Array<ArrayBuffer>> {
  const last = '#'.charCodeAt(0) + 85;
  const deflated = new Uint8Array(Math.floor((4 * packed.length) / 5));
  for (let at = 0, end = 0; at < packed.length; at += 5, end += 4) {
    let value = 0;
    for (let place = at; place < at + 5; place++) {
      const code = place < packed.length ? packed.charCodeAt(place) : last;
      value = 85 * value + code - (code < 60 ? 35 : 36);
    }
    for (let k = 0; k < 4; k++) deflated[end + k] = value / 2 ** (24 - 8 * k);
  }
  const stream = new Blob([deflated]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

export type UnpackBytes = typeof unpackBytes;
