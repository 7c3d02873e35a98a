/// <reference lib="dom" />

/** The text that `packText` packed. */
export async function unpackText(packed: string): Promise<string> {
  const bytes = Uint8Array.from(atob(packed), (c) => c.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  return new Response(stream).text();
}

/** The bytes that `packText` packed. */
export async function unpackBytes(packed: string): Promise<Uint8Array<ArrayBuffer>> {
  const bytes = Uint8Array.from(atob(packed), (c) => c.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

export type UnpackText = typeof unpackText;
