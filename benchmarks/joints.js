// The two joints that benchmarks share: the one of the independent solution, and another radius, layup, material and support.
import { layupFromPlies } from '@lumenfront/core';

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
