import { controlContour } from '../../laminate/index.js';
import type { ContourPath } from '../filler-border.js';
import type { KnownOutline } from '../tee.js';
import { fillAround } from './fill-around.js';
import { fillerOpening, knownWall } from './known-channel.js';
import type { PocketSite, PocketTee } from './site.js';
import { filler, meshParts, type PocketTeeMesh, resin, untilApart, withFilled } from './tee-mesh.js';

/** Nodes of a half contour and of its mirror image, counter-clockwise from the bottom: quadratic edges, their ends first. */
export function bothHalves({ x, y }: Pick<ContourPath, 'x' | 'y'>): KnownOutline {
  const last = x.length - 1;
  return Array.from({ length: 2 * last }, (_, j) => {
    const node = Math.min(j, 2 * last - j);
    return [j > last ? -x[node]! : x[node]!, y[node]!] as const;
  });
}

/** A tee with a channel of known outline in its pocket, meshed but for that and for the inside of a control contour in its filler, by whose nodes that is given. */
export function meshAroundFiller(joint: PocketTee, site: PocketSite, contour: KnownOutline): PocketTeeMesh {
  return untilApart('host.pocket.channel', (finer) => {
    const opening = fillerOpening(joint, contour, finer);
    const ring = controlContour(site.laminate, wishAround(joint, site), finer);
    const open = meshParts(joint, site, ring, { refinement: 1, opening });
    const filled = fillAround(open.body.mesh, { inner: opening, material: filler });
    const known = filled && fillAround(filled.mesh, { inner: pocketOpening(joint, site), material: resin });
    return (
      known && { ...withFilled(open, known.mesh, { nodes: known.inner, material: resin }), contourNodes: filled.inner }
    );
  });
}

/** The room that a channel of known outline takes up in its pocket: of its elements, so that no round of it matters. */
export function wishAround({ pocket }: PocketTee, site: PocketSite) {
  const channel = pocket.channel!;
  const along = channel.map(([x, y]) => Math.abs(site.unfold(x, y)[0]));
  const heights = channel.map(([, y]) => y);
  return {
    wall: knownWall(channel, site.border, 'pocket'),
    edgeRadius: 0,
    largest: { width: 2 * Math.max(...along), height: Math.max(...heights) - Math.min(...heights) },
  };
}

/** Nodes on the channel's edge in the joint's coordinates. */
function pocketOpening({ pocket }: PocketTee, { toJoint }: PocketSite) {
  const places = pocket.channel!.map(([x, y]) => toJoint(x, y));
  return { x: places.map(([x]) => x), y: places.map(([, y]) => y) };
}
