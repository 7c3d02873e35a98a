import type { HostKind } from '../contract.js';
import { beside, besidePlaces } from './pocket/beside.js';
import { knownSummary } from './pocket/known-channel.js';
import { openTee, pocketTeeHost } from './pocket-host.js';
import type { TeeJoint } from './tee.js';

/** A web pulled off a skin: the channel lies in the filler between the bends, or in a pocket of one of the laminates, there also beside one of known outline in the filler. */
export const teeHost: HostKind<TeeJoint> = {
  ...pocketTeeHost,
  part: false,
  places: { ...pocketTeeHost.places, ...besidePlaces },
  open(joint) {
    const host = openTee(joint, beside);
    if (joint.fillerChannel === undefined) return host;
    return { ...host, summary: [...host.summary, ...knownSummary(joint)] };
  },
};
