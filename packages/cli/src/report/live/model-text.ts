import { decodeModel, encodeModel, type ReducedModel } from '@lumenfront/core';
import { base64 } from '../pack-text.js';

const source = 'report';

/**
 * A reduced model as text that deflates well: the bytes of `encodeModel` sorted by their place in a number, so that those of numbers with few digits
 * stand in rows of zeros; in base64.
 */
export function modelText(model: ReducedModel): string {
  return base64(sorted(encodeModel(source, model), 'apart'));
}

export function textModel(text: string): ReducedModel {
  const bytes = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
  return decodeModel(source, sorted(bytes, 'together'));
}

const size = 8;

/** First bytes of all eights, then second ones, and so on; or back again. */
function sorted(bytes: Uint8Array, way: 'apart' | 'together'): Uint8Array {
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
