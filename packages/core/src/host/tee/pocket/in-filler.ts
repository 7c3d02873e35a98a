import type { Host } from '../../contract.js';
import { boxAround, type HostShape, shapeInSection } from '../../shape.js';
import { fillerTeeHost } from '../filler-host.js';
import { teeSummary } from '../kind.js';
import { teeShape } from '../shape.js';
import { estimateSize } from '../size.js';
import { aroundKnown, openPocketTee, pocketSummary } from './host.js';
import { wishAround } from './in-filler-mesh.js';
import { strengthInFiller } from './in-filler-places.js';
import { contourInFiller, reduceInFiller } from './in-filler-reduce.js';
import { about } from './known-channel.js';
import { closed, pocketTeeShape } from './shape.js';
import { type PocketSite, type PocketTee, pocketSite } from './site.js';

/** A tee whose channel is looked for in the filler while one of known outline stands in its pocket: told in the joint's coordinates, as a tee without pocket. */
export function openInFiller(joint: PocketTee): Host {
  const { pocket, ...plain } = joint;
  const site = pocketSite(joint);
  const { wall } = wishAround(joint, site);
  const host = fillerTeeHost.open(plain);
  const { tips } = host;
  return {
    ...host,
    reduce: (wish, onProgress) => reduceInFiller(joint, site, wish, nearPocketTips(joint, site), onProgress),
    size(wish) {
      const { elements, triangles } = estimateSize(joint);
      const edges = (contourInFiller(joint, wish).x.length - 1) / 2;
      return {
        elements: 3 * elements + 2 * aroundKnown.elements + 20 * edges,
        contour: 2 * edges,
        finest: 1.5,
        triangles: triangles + aroundKnown.triangles,
      };
    },
    strengthAt: strengthInFiller(joint, site),
    ...(tips === undefined ? {} : { tips: { ...tips, at: [...tips.at, [-joint.bendRadius, 0]] } }),
    get shape() {
      return shapeWithPocket(joint, site);
    },
    get summary() {
      return [...teeSummary(joint), pocketSummary(joint, site), channelSummary(joint, wall)];
    },
  };
}

/** Stresses are singular at the ends of the pocket: what lies in or at it is left out there as far as where the channel is looked for in it. */
function nearPocketTips(joint: PocketTee, site: PocketSite) {
  const { at, usualDistance } = openPocketTee(joint, undefined, site).tips!;
  const tips = at.map(([x, y]) => site.toJoint(x, y));
  return (place: string, x: number, y: number): boolean =>
    place.startsWith('pocket-') && tips.some(([tipX, tipY]) => Math.hypot(x - tipX, y - tipY) < usualDistance);
}

function channelSummary(joint: PocketTee, wall: number): Host['summary'][0] {
  const { xMin, xMax, yMin, yMax } = boxAround(joint.pocket.channel!);
  return [
    'channel in the pocket',
    `of known outline, ${about(xMax - xMin)} by ${about(yMax - yMin)} mm, wall ${about(wall)} mm`,
  ];
}

function shapeWithPocket(joint: PocketTee, site: PocketSite): HostShape {
  const plain = teeShape(joint);
  const pocketed = shapeInSection(pocketTeeShape(joint, site));
  const channel = closed(joint.pocket.channel!.map(([x, y]) => site.toJoint(x, y)));
  return {
    ...plain,
    // The last one is the filler, which is the room here.
    layers: [...pocketed.layers.slice(0, -1), { path: pocketed.room, angle: 90 }],
    openings: [channel],
    parts: [
      ...(plain.parts ?? []),
      { name: 'pocket', path: pocketed.room, nameAt: pocketed.room.from },
      { name: 'channel in the pocket', path: channel, nameAt: channel.from },
    ],
  };
}
