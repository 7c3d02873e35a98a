import type { Ply } from './ply.js';

/** Stands behind every built-in value; shown wherever one is used. */
export const genericCaution = 'typical values, from memory; replace by your data sheet';

/** The material of a brief that names none. */
export const defaultMaterial = 'generic-carbon-epoxy';

const resin = { E: 3400, nu: 0.36 };

/**
 * Built-in materials. All values are typical ones, from memory, and to be replaced by a data sheet: they let a
 * brief run before its own values are known, and prove nothing about any material.
 */
export const genericMaterials: Readonly<Record<string, Ply>> = {
  'generic-carbon-epoxy': {
    E1: 130_000,
    E2: 9500,
    nu12: 0.3,
    nu23: 0.42,
    G12: 5000,
    alpha1: -0.5e-6,
    alpha2: 28e-6,
    transverseTension: 50,
    interlaminarShear: 80,
  },
  'generic-glass-epoxy': {
    E1: 42_000,
    E2: 12_000,
    nu12: 0.28,
    nu23: 0.4,
    G12: 4500,
    alpha1: 7e-6,
    alpha2: 27e-6,
    transverseTension: 40,
    interlaminarShear: 65,
  },
  'generic-epoxy-resin': {
    E1: resin.E,
    E2: resin.E,
    nu12: resin.nu,
    nu23: resin.nu,
    G12: resin.E / (2 * (1 + resin.nu)),
    alpha1: 58e-6,
    alpha2: 58e-6,
    transverseTension: 70,
    interlaminarShear: 55,
  },
};
