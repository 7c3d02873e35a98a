import { InputError } from '../../errors.js';
import type { Host, HostKind } from '../contract.js';
import { fillerTeeHost, fillerTeeSummary } from './filler-host.js';
import type { Beside } from './pocket/beside.js';
import { pocketContourBorder } from './pocket/contour.js';
import { openPocketTee, pocketSummary } from './pocket/host.js';
import { pocketPlaces } from './pocket/places.js';
import type { TeeJoint } from './tee.js';

/** A web pulled off a skin: the channel lies in the filler between the bends, or in a pocket of one of the laminates. Knows no channel of known outline beside that. */
export const pocketTeeHost: HostKind<TeeJoint> = {
  ...fillerTeeHost,
  places: { ...fillerTeeHost.places, ...pocketPlaces },
  contour: (data) => (data.bendRadius === undefined ? pocketContourBorder(data) : fillerTeeHost.contour(data)),
  open(joint) {
    if (joint.fillerChannel !== undefined)
      throw new InputError({
        path: 'host.filler.channel',
        expected: 'a tee whose filler has no channel of its own beside the pocket',
        received: 'a channel of known outline',
        remedy: 'take teeHost; where hosts come on demand, await loadHost(joint) first',
      });
    return openTee(joint);
  },
};

export function openTee(joint: TeeJoint, made?: Beside): Host {
  const { pocket } = joint;
  if (pocket === undefined) return fillerTeeHost.open(joint);
  const pocketed = { ...joint, pocket };
  return {
    ...openPocketTee(pocketed, made),
    get summary() {
      return [...fillerTeeSummary(joint), pocketSummary(pocketed)];
    },
  };
}
