import { cracksOf, type LaminateJoint } from '../../packages/core/src/host/index.js';
import { type Check, once, type Publication } from './check.js';

const resin = {
  ...{ E1: 3000, E2: 3000, nu12: 0.35, nu23: 0.35, G12: 3000 / 2.7, alpha1: 0, alpha2: 0 },
  ...{ transverseTension: 1, interlaminarShear: 1 },
};
const depth = 40;

/** A crack of 1 mm between two thick plies of one material, which is that of the pocket as well. */
const body: LaminateJoint = {
  kind: 'laminate',
  layup: [depth / 2, depth / 2].map((thickness) => ({ thickness, angle: 90, ply: resin })),
  width: 6 * depth,
  ends: 'free',
  pocket: { made: 'drape', below: 1, height: 0.1, halfLength: 0.2, faces: 'both-flat' },
  resin,
};
const length = 1;

/** 1 MPa across the crack, and along it where a force on the ends has its largest shear stress. */
const released = once(() => {
  const loads = { flatwise: { stress: 1 }, shear: { force: depth / 1.5 } };
  return cracksOf(body)!.release(body, loads, [], { end: 'right', below: 1, length, coarseness: 1 });
});
/** `pi (a/2) s^2 (1 - nu^2) / E` */
const griffith = (Math.PI * (length / 2) * (1 - resin.nu12 ** 2)) / resin.E1;

const check = (
  quantity: string,
  load: 'flatwise' | 'shear',
  mode: 'opening' | 'sliding',
  published: number,
): Check => ({
  quantity,
  published,
  tolerance: 3e-3,
  scale: griffith,
  compute: () => {
    const { loads, [mode]: form } = released();
    return form[loads.indexOf(load) * (loads.length + 1)]!;
  },
});

export const crack: Publication = {
  title: 'Energy that a crack sets free',
  source:
    'Griffith, Phil. Trans. R. Soc. A 221 (1921) 163-198, and Irwin, J. Appl. Mech. 24 (1957) 361-364: pi a s^2 (1 - nu^2) / E for a crack of 2a under plane strain, in mode II with the ' +
    'shear stress. Here a crack of 1 mm in a laminate of one material, 40 mm thick and 240 wide',
  checks: [
    check('mesh: mode I, 1 MPa across', 'flatwise', 'opening', griffith),
    check('mesh: mode II, 1 MPa across', 'flatwise', 'sliding', 0),
    check('mesh: mode II, shear of 1 MPa', 'shear', 'sliding', griffith),
    check('mesh: mode I, shear of 1 MPa', 'shear', 'opening', 0),
  ],
};
