import { InputError } from '../../errors.js';
import type { Host, HostKind } from '../contract.js';
import { liesInPocket, teeKind } from './kind.js';
import type { Beside } from './pocket/beside.js';
import { pocketContourBorder } from './pocket/contour.js';
import { openPocketTee } from './pocket/host.js';
import { pocketPlaces } from './pocket/places.js';
import type { TeeJoint } from './tee.js';

/** A web pulled off a skin: the channel lies in a pocket of one of the laminates. Knows neither channels in the filler nor those of known outline there. */
export const pocketTeeHost: HostKind<TeeJoint> = {
  ...teeKind,
  part: liesInPocket,
  places: { ...teeKind.places, ...pocketPlaces },
  contour: pocketContourBorder,
  open: (joint) => openPocketed(joint),
};

export function openPocketed(joint: TeeJoint, made?: Beside): Host {
  const { pocket } = joint;
  const known = pocket?.channel === undefined ? made === undefined && joint.fillerChannel && 'filler' : 'pocket';
  if (pocket === undefined || known)
    throw new InputError({
      path: 'host',
      expected: `a tee with its channel in a pocket${made === undefined ? ', with none in its filler' : ''}`,
      received: pocket === undefined ? 'a tee without pocket' : `a channel of known outline in the ${known}`,
      remedy: 'take teeHost; where hosts come on demand, await loadHost(joint) first',
    });
  return openPocketTee({ ...joint, pocket }, made);
}
