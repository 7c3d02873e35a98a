/// <reference lib="dom" />

/** The text that `packText` packed. */
export async function unpackText(packed: string): Promise<string> {
  const bytes = Uint8Array.from(atob(packed), (c) => c.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  return new Response(stream).text();
}

export type UnpackText = typeof unpackText;
