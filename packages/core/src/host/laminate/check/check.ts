import type { HostCheck } from '../../contract.js';
import type { LaminateJoint } from '../laminate.js';
import { laminateCracks } from './crack.js';
import { followedJoint } from './follow.js';
import { meshLaminateLoads } from './solve.js';

/** The independent check of a flat laminate, in cubic triangles. */
export const laminateCheck: HostCheck<LaminateJoint> = {
  mesh: (joint, loads, curves, coarseness) =>
    meshLaminateLoads(followedJoint(joint, curves), loads, curves, coarseness),
  cracks: laminateCracks,
};
