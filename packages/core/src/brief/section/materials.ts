import { expectation, quantity, section, userName, type Zod } from '../../input/index.js';

const modulus = (z: Zod, sentence: string) => quantity(z, { unit: 'MPa', above: 0, atMost: 2_000_000, sentence });
const expansion = (z: Zod, sentence: string) => quantity(z, { unit: '1/K', atLeast: -1e-3, atMost: 1e-3, sentence });
const strength = (z: Zod, sentence: string) => quantity(z, { unit: 'MPa', above: 0, atMost: 10_000, sentence });

const strengths = (z: Zod) => ({
  transverseTension: strength(
    z,
    'Tensile strength across the fibres; also taken through the thickness and for a filler of this material.',
  ),
  interlaminarShear: strength(z, 'Interlaminar shear strength.'),
});

/** A transversely isotropic ply, fibre direction 1. No defaults: these are properties of the user's material. */
function plyMaterial(z: Zod) {
  return section(
    z,
    {
      E1: modulus(z, "Young's modulus along the fibres."),
      E2: modulus(z, "Young's modulus across the fibres."),
      nu12: quantity(z, {
        unit: '1',
        above: -1,
        below: 2,
        sentence: "Poisson's ratio of a pull along the fibres.",
      }),
      nu23: quantity(z, {
        unit: '1',
        above: -1,
        below: 1,
        sentence: "Poisson's ratio in the plane across the fibres.",
      }),
      G12: modulus(z, 'Shear modulus along the fibres.'),
      alpha1: expansion(z, 'Thermal expansion along the fibres.'),
      alpha2: expansion(z, 'Thermal expansion across the fibres.'),
      ...strengths(z),
    },
    'A unidirectional ply. No value has a default: each is a property of your material.',
  );
}

/** The short form of an isotropic material. */
function isotropicMaterial(z: Zod) {
  return section(
    z,
    {
      E: modulus(z, "Young's modulus."),
      nu: quantity(z, { unit: '1', above: -1, below: 0.499, sentence: "Poisson's ratio." }),
      alpha: expansion(z, 'Thermal expansion.'),
      ...strengths(z),
    },
    'An isotropic material, such as a resin. No value has a default: each is a property of your material.',
  );
}

/** Section `materials`: name -> properties. */
export function materialsSection(z: Zod) {
  return z.meta(
    z.default(
      z.record(
        userName(z),
        z.meta(
          z.union([plyMaterial(z), isotropicMaterial(z)], {
            error: () =>
              expectation(
                'a mapping of ply properties (E1, E2, nu12, nu23, G12, alpha1, alpha2, …) or isotropic ones (E, nu, alpha, …)',
                'indent the properties below the name of the material',
              ),
          }),
          { description: 'One material: a ply or, in short form, an isotropic one.' },
        ),
        { error: () => expectation('a mapping of name to properties', 'write one material per name') },
      ),
      {},
    ),
    {
      description:
        'Materials by name. Built in, with typical values to be replaced by your data sheet: generic-carbon-epoxy, generic-glass-epoxy, generic-epoxy-resin.',
    },
  );
}
