import type { Host, HostKind, RoomWish } from '../contract.js';
import { readSection, type SectionBody } from './body.js';
import { contourBorder, contourEdges, roomLine } from './contour.js';
import type { SectionJoint } from './joint.js';
import { ownLoads, sectionLoads } from './loads.js';
import { boxOf, type Polygon } from './outline-border.js';
import { sectionPlaces, sectionStrengthAt } from './places.js';
import { reduceSection } from './reduce.js';
import { sectionShape } from './shape.js';

/** A section of any form, from a mesh made elsewhere: the channel lies in one of its surfaces. */
export const sectionHost: HostKind<SectionJoint> = {
  kind: 'section',
  name: 'a meshed section',
  loads: sectionLoads,
  ownLoads,
  places: sectionPlaces,
  families: [],
  contour: (data) => contourBorder(data as unknown as Polygon),
  open: openSection,
};

/** Points nearer to where bodies meet than this share of the largest circle's radius are not judged, unless a brief says otherwise. */
const usualTipDistance = 0.4;

/** Elements that come with a contour, and triangles with a channel: measured on a hat stiffener's foot, about. */
const ringElements = 2500;
const ringTriangles = 5000;

function openSection(joint: SectionJoint): Host {
  const section = readSection(joint);
  const { border, box, circle, file } = section;
  const { radius } = circle;
  const ownElements = file.quadSurface.length + file.triangleSurface.length;
  return {
    kind: 'section',
    material: joint.surfaces[joint.filler]!.ply,
    border,
    lengthScale: radius,
    largestCircle: {
      ...circle,
      words: {
        name: 'the largest circle that fits the filler',
        formula: 'by its border in the mesh',
        more: 'a larger filler',
        inside: `a channel inside the filler ${joint.filler}`,
      },
    },
    usual: { reference: { at: circle.at, width: 0.4 * radius, height: 0.4 * radius }, mirror: false },
    room: (wish) => roomOf(section, wish),
    wholeRoom: ({ mirror }) => ({ mirror, ...box, edgeRadius: 0 }),
    condensed: true,
    reduce: (wish, onProgress) => reduceSection(section, wish, onProgress),
    oneChannel: { why: 'one in a section that was meshed elsewhere', remedy: 'ask for one channel' },
    // The user's elements and those of the ring; each in two triangles and more around the channel.
    size: (wish) => ({
      elements: ownElements + ringElements,
      contour: contourEdges(box, wish),
      finest: 1.5,
      triangles: 1.5 * ownElements + ringTriangles,
    }),
    judgesSection: true,
    strengthAt: sectionStrengthAt(joint, file.surfaces),
    tips: {
      at: section.tips,
      usualDistance: usualTipDistance * radius,
      mostDistance: 2 * radius,
      words: { name: 'places where surfaces meet or end', most: 'the diameter of the largest circle in the filler' },
    },
    get shape() {
      return sectionShape(section);
    },
    get summary() {
      return summaryOf(section);
    },
  };
}

function roomOf({ border, box, circle }: SectionBody, { mirror, wall, edgeRadius, largest }: RoomWish) {
  const depth = wall + edgeRadius;
  const step = Math.min(0.05 * circle.radius, 0.2 * Math.max(circle.radius - depth, 1e-3 * circle.radius));
  const line = roomLine(border, box, depth, circle.at, step);
  const [x, y] = circle.at;
  const { xMin, xMax, yMin, yMax } = line === undefined ? { xMin: x, xMax: x, yMin: y, yMax: y } : boxOf(line);
  const within = (from: number, to: number, most: number) => {
    const spare = Math.max(0, (to - from + 2 * edgeRadius - most) / 2);
    return [from - edgeRadius + spare, to + edgeRadius - spare] as const;
  };
  const [left, right] = within(xMin, xMax, largest?.width ?? Number.POSITIVE_INFINITY);
  const [bottom, top] = within(yMin, yMax, largest?.height ?? Number.POSITIVE_INFINITY);
  return { mirror, xMin: left, xMax: right, yMin: bottom, yMax: top, edgeRadius };
}

function summaryOf({ joint, file }: SectionBody): Host['summary'] {
  const around = file.surfaces.filter((name) => name !== joint.filler);
  return [
    ['joint', `section from ${joint.mesh.file}, ${file.x.length} nodes`],
    ['filler', joint.filler],
    ['surfaces', around.map((name) => `${name} ${angleOf(joint, name)}`).join(', ')],
    ['held', joint.supports.map(({ curve, hold }) => `${curve} ${hold.join(' ')}`).join(', ') || 'nowhere'],
    ['not judged', 'fibres, plies in their plane, borders of other surfaces, and places near corners'],
  ];
}

const angleOf = ({ surfaces }: SectionJoint, name: string) => {
  const { ply, angle } = surfaces[name]!;
  return ply.E1 === ply.E2 ? 'isotropic' : String(angle);
};
