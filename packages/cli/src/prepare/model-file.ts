import { createHash } from 'node:crypto';
import { deserialize, serialize } from 'node:v8';
import type { ReducedModel } from '@lumenfront/core';

const digestSize = 32;

/**
 * A reduced model as bytes, whatever plain data it holds, every number to the last bit: a digest of key and content, then
 * the content. Read again on the same kind of machine only, as numbers lie in its byte order.
 */
export function encodeModel(key: string, model: ReducedModel): Uint8Array {
  const content = serialize(model);
  return Buffer.concat([digest(key, content), content]);
}

/** The model of `encodeModel`; `undefined` for bytes that are damaged, foreign, or belong to another key. */
export function decodeModel(key: string, bytes: Uint8Array): ReducedModel | undefined {
  const content = bytes.subarray(digestSize);
  // The digest stands guard: bytes that V8 did not write never reach its reader.
  if (!digest(key, content).equals(bytes.subarray(0, digestSize))) return undefined;
  return deserialize(content) as ReducedModel;
}

function digest(key: string, content: Uint8Array): Buffer {
  return createHash('sha256').update(key).update(content).digest();
}
