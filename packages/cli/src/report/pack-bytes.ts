/**
 * A text or bytes, deflated (RFC 1951), four bytes in five characters: what a page holds of large data. `unpackBytes` reads it. Characters are those
 * from `#` to `x` without `<`, so that nothing ends the script that holds them; base64 would take a sixteenth more.
 */
export async function packBytes(content: string | Uint8Array<ArrayBuffer>): Promise<string> {
  const stream = new Blob([content]).stream().pipeThrough(new CompressionStream('deflate-raw'));
  return inText(new Uint8Array(await new Response(stream).arrayBuffer()));
}

function inText(bytes: Uint8Array): string {
  const codes = new Uint8Array(5 * Math.ceil(bytes.length / 4));
  for (let at = 0, end = 5; at < bytes.length; at += 4, end += 5) {
    let value = 0;
    for (let k = at; k < at + 4; k++) value = 256 * value + (bytes[k] ?? 0);
    for (let place = end - 1; place >= end - 5; place--) {
      const code = 35 + (value % 85);
      codes[place] = code < 60 ? code : code + 1;
      value = Math.floor(value / 85);
    }
  }
  // One more character than there are bytes in the last group tells where it ends.
  return new TextDecoder().decode(codes.subarray(0, Math.ceil((5 * bytes.length) / 4)));
}
