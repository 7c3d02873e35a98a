import type { HostCheck } from '../../contract.js';
import { teeCracks } from '../pocket/check/crack.js';
import { meshInFillerLoads } from '../pocket/check/in-filler.js';
import { meshPocketTeeLoads } from '../pocket/check/solve.js';
import type { TeeJoint } from '../tee.js';
import { meshTeeLoads } from './solve.js';

/** The independent check of a T-joint, in cubic triangles. */
export const teeCheck: HostCheck<TeeJoint> = {
  mesh: (joint, loads, curves, coarseness) => {
    const { pocket } = joint;
    if (pocket === undefined) return meshTeeLoads(joint, loads, curves, coarseness);
    const mesh = pocket.channel === undefined ? meshPocketTeeLoads : meshInFillerLoads;
    return mesh({ ...joint, pocket }, loads, curves, coarseness);
  },
  cracks: teeCracks,
};
