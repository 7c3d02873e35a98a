import type { HostCheck } from '../../contract.js';
import { meshPocketTeeLoads } from '../pocket/check/solve.js';
import type { TeeJoint } from '../tee.js';
import { meshTeeLoads } from './solve.js';

/** The independent check of a T-joint, in cubic triangles. */
export const teeCheck: HostCheck<TeeJoint> = {
  mesh: (joint, loads, curves, coarseness) => {
    const { pocket } = joint;
    return pocket === undefined
      ? meshTeeLoads(joint, loads, curves, coarseness)
      : meshPocketTeeLoads({ ...joint, pocket }, loads, curves, coarseness);
  },
};
