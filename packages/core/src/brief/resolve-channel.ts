import { type Host, hostKind, hostKinds } from '../host/index.js';
import type { ProblemList } from '../input/index.js';
import { familyNames } from '../outline/index.js';
import { resolveGroup } from './resolve-group.js';
import type { ChannelWish, ReferenceChannel } from './resolved.js';
import type { BriefData } from './schema.js';

const mm = (length: number) => `${Number(length.toPrecision(4))} mm`;

/** Wall and edge radius may take up this much of the largest circle: the control contour needs some room. */
const shareOfRoom = 0.96;

/** Over the radius of the largest circle in the room. Thinner walls are lost in the rounding of a mesh: in a tee 5e-7 of it turned elements inside out. */
const leastWall = 1e-4;

/** @param host `undefined` if it is faulty: then only what needs none is checked */
export function resolveChannel(
  channel: BriefData['channel'],
  channels: BriefData['channels'],
  host: Host | undefined,
  problems: ProblemList,
): ChannelWish {
  const { families, wall, edgeRadius } = channel;
  const mirror = problems.isGiven(['channel', 'mirror']) ? channel.mirror : (host?.usual.mirror ?? channel.mirror);
  families.forEach((family, i) => {
    if (families.indexOf(family) !== i)
      problems.add(['channel', 'families', i], 'each family once', 'remove the repeated one');
    if (host === undefined || familyNames.includes(family)) return;
    const own = hostKind(host.kind).families;
    if (own.includes(family)) return;
    const owners = hostKinds().filter((kind) => kind.families.includes(family));
    problems.add(
      ['channel', 'families', i],
      `a family that needs no ${owners.map(({ kind }) => kind).join(' or ')}: ${[...familyNames, ...own].join(', ')}`,
      `remove ${family}: it needs ${owners.map(({ name }) => name).join(' or ')}`,
    );
  });

  const circle = host?.largestCircle;
  if (mirror && host?.usual.mirror === false && Math.abs(circle?.at[0] ?? 0) > 0.01 * host.lengthScale)
    problems.add(
      ['channel', 'mirror'],
      'false: the filler does not lie across x = 0, the mirror line',
      'leave it out, or move the section so that its mirror line is x = 0',
    );
  const hasRoom = circle === undefined || wall + edgeRadius < shareOfRoom * circle.radius;
  if (!hasRoom)
    problems.add(
      ['channel', edgeRadius > wall ? 'edgeRadius' : 'wall'],
      `wall + edgeRadius below ${mm(shareOfRoom * circle.radius)}; ${circle.words.name} has a radius of ${mm(circle.radius)} (${circle.words.formula})`,
      `take a thinner wall, a smaller edge radius or ${circle.words.more}: no channel fits`,
      `${mm(wall)} + ${mm(edgeRadius)} = ${mm(wall + edgeRadius)}`,
    );

  if (circle !== undefined && !(wall >= leastWall * circle.radius))
    problems.add(
      ['channel', 'wall'],
      `at least ${mm(leastWall * circle.radius)}: the model is made around channels as close to the border as this`,
      'ask for a wall that can be made',
    );

  const usual = host?.usual ?? { reference: { at: [0, 0] as const, width: 1, height: 1 } };
  const several = resolveGroup(channels, channel, host, problems);
  /** Of an even number the given one lies on the right. */
  const isRight = several !== undefined && several.group.number % 2 === 0;
  const reference = channel.reference ?? {
    family: 'ellipse',
    ...usual.reference,
    at: usualPlace(usual.reference, several?.group),
  };
  if (channel.reference !== undefined) {
    checkPlace(channel.reference, wall, { mirror, isRight }, problems);
    // No reference keeps a wall for which there is no room.
    if (hasRoom) checkReference(channel.reference, wall, host, problems);
  }
  const largest = several === undefined ? (channel.largest ?? host?.usual.largest) : several.largest;
  return {
    ...{ families, wall, edgeRadius, mirror: mirror && !isRight },
    ...(largest === undefined ? {} : { largest }),
    reference,
    ...(several === undefined ? {} : { group: several.group }),
    ...(channels.number === 'row' && channels.pitch !== undefined
      ? { row: { connected: channels.connected, pitch: channels.pitch } }
      : {}),
  };
}

/** The reference stands in the middle of its room; of an even number, at half the pitch, or of two as far apart as they are wide. */
function usualPlace(
  { at: [x, y], width }: Pick<ReferenceChannel, 'at' | 'width'>,
  group: ChannelWish['group'],
): ReferenceChannel['at'] {
  return group === undefined || group.number % 2 === 1 ? [x, y] : [x + (group.pitch ?? 2 * width) / 2, y];
}

/** Whether the reference stands where outlines may: on the mirror line, or of two on the right of it. */
function checkPlace(
  reference: ReferenceChannel,
  wall: number,
  { mirror, isRight }: { readonly mirror: boolean; readonly isRight: boolean },
  problems: ProblemList,
): void {
  const path = ['channel', 'reference'] as const;
  const least = (wall + reference.width) / 2;
  if (isRight) {
    if (!(reference.at[0] >= least - 1e-9))
      problems.add(
        [...path, 'at', 0],
        `at least ${mm(least)}: of two channels the right one, half of channel.wall from the line between them`,
        'move it to the right, or leave the reference out',
      );
  } else if (mirror && reference.at[0] !== 0)
    problems.add(
      [...path, 'at', 0],
      '0, the mirror line, as channel.mirror is true',
      'place the reference at [0, y], or set channel.mirror: false',
    );
}

function checkReference(
  reference: ReferenceChannel,
  wall: number,
  host: Host | undefined,
  problems: ProblemList,
): void {
  const path = ['channel', 'reference'] as const;
  const circle = host?.largestCircle;
  if (circle === undefined) return;
  const nearest = wallOfEllipse(reference, host!);
  const size = `an ellipse ${reference.width} by ${reference.height} mm at [${reference.at.join(', ')}]`;
  if (!(nearest > 0))
    problems.add(
      [...path],
      circle.words.inside,
      `move it or make it smaller; most room is at [${circle.at.map((one) => Number(one.toPrecision(4))).join(', ')}]`,
      `${size}, which crosses the border of its room`,
    );
  else if (!(nearest >= wall - 1e-9))
    problems.add(
      [...path],
      `at least ${mm(wall)} of material around it (channel.wall)`,
      'move it, make it smaller, or take a thinner wall',
      `${size}, with a wall of ${mm(nearest)}`,
    );
}

/** Least distance from an ellipse to the host's border, mm; negative where it leaves its room. */
function wallOfEllipse({ at, width, height }: ReferenceChannel, { border }: Host): number {
  const points = 720;
  let least = Number.POSITIVE_INFINITY;
  for (let j = 0; j < points; j++) {
    const s = (2 * Math.PI * j) / points;
    least = Math.min(least, border.distance(at[0] + (width / 2) * Math.cos(s), at[1] + (height / 2) * Math.sin(s)));
  }
  return least;
}
