import type { Ply } from '../../material/index.js';

/** An infinite sheet of one in-plane isotropic material under far-field stress. */
export interface PlateHost {
  readonly kind: 'plate';
  readonly material: Ply;
}
