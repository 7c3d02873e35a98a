import type { Host, HostKind } from '../contract.js';
import { fillerTeeHost, fillerTeeSummary } from './filler-host.js';
import { pocketContourBorder } from './pocket/contour.js';
import { knownSummary, openPocketTee, pocketSummary } from './pocket/host.js';
import { pocketPlaces } from './pocket/places.js';
import type { TeeJoint } from './tee.js';

/** A web pulled off a skin: the channel lies in the filler between the bends, or in a pocket of one of the laminates. */
export const teeHost: HostKind<TeeJoint> = {
  ...fillerTeeHost,
  part: false,
  places: { ...fillerTeeHost.places, ...pocketPlaces },
  contour: (data) => (data.bendRadius === undefined ? pocketContourBorder(data) : fillerTeeHost.contour(data)),
  open: openTee,
};

function openTee(joint: TeeJoint): Host {
  const { pocket } = joint;
  if (pocket === undefined) return fillerTeeHost.open(joint);
  const pocketed = { ...joint, pocket };
  return {
    ...openPocketTee(pocketed),
    get summary() {
      return [...fillerTeeSummary(joint), pocketSummary(pocketed), ...knownSummary(joint)];
    },
  };
}
