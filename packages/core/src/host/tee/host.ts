import type { HostKind } from '../contract.js';
import { besideTeeHost } from './beside-host.js';
import { fillerTeeHost } from './filler-host.js';
import { openInFiller } from './pocket/in-filler.js';
import { placesInFiller } from './pocket/in-filler-places.js';
import type { TeeJoint } from './tee.js';

const { part: _, ...besideTee } = besideTeeHost;

/** A web pulled off a skin: the channel lies in the filler between the bends, or in a pocket of one of the laminates, there also beside one of known outline in the filler, or in the filler beside one in a pocket. */
export const teeHost: HostKind<TeeJoint> = {
  ...besideTee,
  places: { ...besideTee.places, ...placesInFiller },
  contour: (data) => (data.bendRadius === undefined ? besideTee : fillerTeeHost).contour(data),
  open(joint) {
    const { pocket } = joint;
    if (pocket === undefined) return fillerTeeHost.open(joint);
    return pocket.channel === undefined ? besideTee.open(joint) : openInFiller({ ...joint, pocket });
  },
};
