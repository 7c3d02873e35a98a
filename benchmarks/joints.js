// The two joints that benchmarks share: the one of the independent solution, and another radius, layup, material and support.
import { layupFromPlies } from '../packages/core/dist/material/index.js';

/** The first: carbon/epoxy lamina of the World-Wide Failure Exercise (Soden, Hinton & Kaddour 1998), from memory; the second is invented. */
const carbon = { E1: 126000, E2: 11000, nu12: 0.28, nu23: 0.4, G12: 6600, alpha1: -1e-6, alpha2: 26e-6 };
const stiffer = { E1: 140000, E2: 9500, nu12: 0.3, nu23: 0.42, G12: 5200, alpha1: 0.2e-6, alpha2: 30e-6 };
const ply = { ...carbon, transverseTension: 48, interlaminarShear: 79 };
const otherPly = { ...stiffer, transverseTension: 60, interlaminarShear: 90 };
export const joints = {
  'radius 5, [45,-45,0,90]s, clamped': {
    kind: 'tee',
    bendRadius: 5,
    overlaminate: layupFromPlies([45, -45, 0, 90, 90, 0, -45, 45], 0.25, ply),
    webHeight: 25,
    footLength: 20,
    skinHalfSpan: 40,
    skin: [{ thickness: 3, angle: 'quasi-isotropic', ply }],
    filler: ply,
    support: 'clamped',
  },
  'radius 3.5, [0,45,-45,90,0,0], simple': {
    kind: 'tee',
    bendRadius: 3.5,
    overlaminate: layupFromPlies([0, 45, -45, 90, 0, 0], 0.19, otherPly),
    webHeight: 15,
    footLength: 12,
    skinHalfSpan: 30,
    skin: layupFromPlies([45, -45, 0, 90, 90, 0, -45, 45], 0.25, ply),
    filler: otherPly,
    support: 'simple',
  },
};

/** The first of them. */
export const [referenceJoint] = Object.values(joints);

const neat = { E1: 3400, E2: 3400, nu12: 0.36, nu23: 0.36, G12: 3400 / 2 / 1.36, alpha1: 58e-6, alpha2: 58e-6 };
const laminate = {
  kind: 'laminate',
  layup: [90, 90, 0, 0, 0, 0, 90, 90, 90, 90, 0, 0].map((angle) => ({ thickness: 0.25, angle, ply })),
  width: 40,
  ends: 'clamped',
  resin: { ...neat, transverseTension: 70, interlaminarShear: 55 },
};
const lens = { made: 'drape', below: 6, height: 0.58, halfLength: 2, faces: 'both-flat' };

const blocks = [90, 90, 0, 0, 0, 0, 90, 90].map((angle) => ({ thickness: 0.25, angle, ply }));
const inTee = (where, at, form, halfLength) => ({
  kind: 'tee',
  bendRadius: 6,
  overlaminate: blocks,
  webHeight: 25,
  footLength: 20,
  skinHalfSpan: 40,
  skin: [...blocks, ...blocks].map((layer) => ({ ...layer, thickness: 0.2 })),
  filler: ply,
  support: 'clamped',
  pocket: {
    in: where,
    at,
    form: form === 'lens' ? { made: 'drape', below: 4, height: 0.5, halfLength, faces: 'both-flat' } : form,
    resin: laminate.resin,
  },
});
const inLens = { wall: 0.05, edgeRadius: 0.06, largest: { width: 1.6, height: 0.4 } };

/** Pockets in one laminate and in one T-joint, with what channels keep in them; invented. */
export const pockets = {
  'pocket: slot 3 by 0.5': {
    joint: { ...laminate, pocket: { made: 'cut', first: 5, count: 2, halfWidth: 1.5 } },
    wall: 0.05,
    edgeRadius: 0.08,
    largest: { width: 3, height: 0.5 },
  },
  'pocket: lens 4 by 0.58': {
    joint: { ...laminate, pocket: lens },
    wall: 0.04,
    edgeRadius: 0.08,
    largest: { width: 2.2, height: 0.5 },
  },
  'pocket: lens 4.8 by 0.58, bottom flat, thin film': {
    joint: { ...laminate, ends: 'free', pocket: { ...lens, halfLength: 2.4, faces: 'bottom-flat' } },
    wall: 0.02,
    edgeRadius: 0.06,
    largest: { width: 2.2, height: 0.54 },
  },
  'pocket: lens that follows, 0.3 to 0.8': {
    joint: { ...laminate, pocket: { ...lens, follows: { least: 0.4, most: 0.9, film: 0.05 } } },
    wall: 0.045,
    edgeRadius: 0.06,
    largest: { width: 2, height: 0.8 },
  },
  'pocket: bend, lens 3.8 by 0.5': { joint: inTee('bend', Math.PI / 4, 'lens', 1.9), ...inLens },
  'pocket: bend, slot 1.8 by 0.5': {
    joint: inTee('bend', Math.PI / 4, { made: 'cut', first: 2, count: 2, halfWidth: 0.9 }),
    ...inLens,
    largest: { width: 1.7, height: 0.4 },
  },
  'pocket: foot, lens 3.8 by 0.5': { joint: inTee('foot', 10, 'lens', 1.9), ...inLens },
  'pocket: skin, lens 3.8 by 0.5': { joint: inTee('skin', 0, 'lens', 1.9), ...inLens },
};

/** Points of an ellipse, closer together where it bends. */
const ellipse = (x, y, a, b) =>
  Array.from({ length: 192 }, (_, k) => {
    const at = (2 * Math.PI * k) / 192;
    return [x + a * Math.cos(at), y + b * Math.sin(at)];
  });
const inFiller = (joint, channel) => ({
  joint: { ...joint, pocket: { ...joint.pocket, channel } },
  wall: 0.12,
  edgeRadius: 0.1,
});

/** The channel in the filler of the same T-joint, beside one of known outline in a pocket. */
export const besidePockets = {
  'filler beside a lens in the bend': inFiller(inTee('bend', Math.PI / 4, 'lens', 1.9), ellipse(0.1, 1, 0.4, 0.18)),
  'filler beside a lens in the skin': inFiller(inTee('skin', 0, 'lens', 1.9), ellipse(0, 0.8, 0.3, 0.16)),
};
