import type { HostKind } from '../contract.js';
import { besideTeeHost } from './beside-host.js';
import { fillerTeeHost } from './filler-host.js';
import type { TeeJoint } from './tee.js';

const { part: _, ...besideTee } = besideTeeHost;

/** A web pulled off a skin: the channel lies in the filler between the bends, or in a pocket of one of the laminates, there also beside one of known outline in the filler. */
export const teeHost: HostKind<TeeJoint> = {
  ...besideTee,
  contour: (data) => (data.bendRadius === undefined ? besideTee : fillerTeeHost).contour(data),
  open: (joint) => (joint.pocket === undefined ? fillerTeeHost : besideTee).open(joint),
};
