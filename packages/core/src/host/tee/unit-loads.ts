import type { ScalarLoad } from '../condensed/index.js';
import type { TeeJoint } from './tee.js';

/** The supports of a condensed tee: its ends as the joint holds them, and free. */
export const held = 0;
export const free = 1;

/** Unit loads that scalars of a condensed tee tell. `split`: by symmetry classes, of which only the side load is antisymmetric. */
export const scalarLoads = (support: TeeJoint['support'], split: boolean): readonly ScalarLoad[] => [
  { name: 'pull', size: 'force', scalar: 'pull', support: held, symmetric: split },
  { name: 'side', size: 'force', scalar: 'side', support: held, symmetric: false },
  // Clamped ends would swallow the moments: they balance each other, so the joint is free to bend.
  { name: 'moment', size: 'moment', scalar: 'moment', support: support === 'clamped' ? free : held, symmetric: split },
  { name: 'cure', size: 'deltaT', scalar: 'deltaT', support: free, symmetric: split },
];
