import type { HostKind } from '../contract.js';
import { liesBesideAnother, liesInPocket } from './kind.js';
import { beside, besidePlaces } from './pocket/beside.js';
import { knownSummary } from './pocket/known-channel.js';
import { openPocketed, pocketTeeHost } from './pocket-host.js';
import type { TeeJoint } from './tee.js';

/** A tee with its channel in a pocket of one of the laminates, beside one of known outline in the filler, or without. Knows no channels that are looked for in the filler. */
export const besideTeeHost: HostKind<TeeJoint> = {
  ...pocketTeeHost,
  part: (tee) => liesInPocket(tee) || liesBesideAnother(tee),
  places: { ...pocketTeeHost.places, ...besidePlaces },
  open(joint) {
    const host = openPocketed(joint, beside);
    return { ...host, summary: [...host.summary, ...knownSummary(joint)] };
  },
};
