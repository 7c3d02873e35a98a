import { describe, expect, it } from 'vitest';
import { InputError } from '../errors.js';
import { createStrengthModel } from '../strength/index.js';
import { checksum, decodeModel, encodeModel } from './model-bytes.js';
import { plateHost } from './plate/index.js';
import { edgePart } from './reduced-model.js';

const joint = {
  kind: 'plate',
  material: {
    E1: 3400,
    E2: 3400,
    nu12: 0.36,
    nu23: 0.36,
    G12: 1250,
    alpha1: 58e-6,
    alpha2: 58e-6,
    transverseTension: 70,
    interlaminarShear: 55,
  },
} as const;
const model = { ...plateHost.open(joint).reduce({ wall: 0.1, edgeRadius: 0.1 }), kappa: -0 };

// Values of MurmurHash3 that its ports test against (from memory).
it('is guarded by a checksum', () => {
  expect(checksum(Uint8Array.from('test', (c) => c.charCodeAt(0)))).toBe(0xba6bd213);
  expect(checksum(new Uint8Array(4))).toBe(0x2362f9de);
  expect(checksum(new Uint8Array(0))).toBe(0);
});

describe('a reduced model as bytes', () => {
  it('comes back to the last bit, infinite places and negative zeros too', () => {
    expect(decodeModel('a', encodeModel('a', model))).toEqual(model);
    expect(Object.is(decodeModel('a', encodeModel('a', model)).kappa, -0)).toBe(true);
    expect(decodeModel('Füße', encodeModel('Füße', model))).toEqual(model);
    // Out of the middle of a larger buffer, as a message may hold it.
    const bytes = encodeModel('a', model);
    const larger = new Uint8Array(bytes.length + 13);
    larger.set(bytes, 5);
    expect(decodeModel('a', larger.subarray(5, 5 + bytes.length))).toEqual(model);
    // As files are read: the `slice` of a Buffer is a view.
    const view = larger.subarray(5, 5 + bytes.length);
    view.slice = view.subarray;
    expect(decodeModel('a', view)).toEqual(model);
  });

  it.each([
    ['cut', (bytes: Uint8Array) => bytes.slice(0, -1)],
    ['cut to its head', (bytes: Uint8Array) => bytes.slice(0, 12)],
    ['empty', () => new Uint8Array(0)],
    ['damaged at the end', (bytes: Uint8Array) => bytes.map((byte, i) => (i === bytes.length - 1 ? byte ^ 1 : byte))],
    ['damaged in its text', (bytes: Uint8Array) => bytes.map((byte, i) => (i === 40 ? byte ^ 128 : byte))],
    ['foreign', () => new TextEncoder().encode('a text that someone left here')],
    ['of another version', (bytes: Uint8Array) => bytes.map((byte, i) => (i === 8 ? byte + 1 : byte))],
  ])('is refused where it is %s', (_, change) => {
    expect(() => decodeModel('a', change(encodeModel('a', model)))).toThrow(InputError);
  });

  it('is refused as that of another joint', () => {
    expect(() => decodeModel('b', encodeModel('a', model))).toThrow(/model: expected the model of this joint/);
  });

  it('has an edge part, of which no strength can be asked', () => {
    const part = decodeModel('a', encodeModel('a', edgePart(model)));
    expect(part.responses).toEqual(model.responses);
    expect(part.loads.map(({ undisturbed }) => undisturbed)).toEqual(model.loads.map(({ undisturbed }) => undisturbed));
    expect(() => createStrengthModel(part, joint, { pressure: { pressure: 1 } }, [], { edge: 'peak' })).toThrow(
      /model: expected a reduced model with its strength part/,
    );
  });
});
