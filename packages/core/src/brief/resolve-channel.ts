import { type Joint, teeFillerBorder } from '../host/index.js';
import type { ProblemList } from '../input/index.js';
import type { ChannelWish, ReferenceChannel } from './resolved.js';
import type { BriefData } from './schema.js';

const mm = (length: number) => `${Number(length.toPrecision(4))} mm`;

/** Wall and edge radius may take up this much of the largest circle in the filler: the control contour needs some room. */
const shareOfRoom = 0.96;

/** @param bendRadius of a tee, or `undefined` if the host is faulty or a plate */
export function resolveChannel(
  channel: BriefData['channel'],
  kind: Joint['kind'] | undefined,
  bendRadius: number | undefined,
  problems: ProblemList,
): ChannelWish {
  const { families, wall, edgeRadius, mirror } = channel;
  families.forEach((family, i) => {
    if (families.indexOf(family) !== i)
      problems.add(['channel', 'families', i], 'each family once', 'remove the repeated one');
    if (family === 'inset' && kind === 'plate')
      problems.add(
        ['channel', 'families', i],
        'a family that needs no filler: ellipse, teardrop, spline',
        'remove inset: a plate has no border to move inwards',
      );
  });

  if (bendRadius !== undefined && !(wall + edgeRadius < shareOfRoom * (bendRadius / 4)))
    problems.add(
      ['channel', edgeRadius > wall ? 'edgeRadius' : 'wall'],
      `wall + edgeRadius below ${mm(shareOfRoom * (bendRadius / 4))}; the largest circle that fits the filler has a radius of ${mm(bendRadius / 4)} (bendRadius / 4)`,
      'take a thinner wall, a smaller edge radius or a larger bend radius: no channel fits',
      `${mm(wall)} + ${mm(edgeRadius)} = ${mm(wall + edgeRadius)}`,
    );

  const reference = channel.reference ?? defaultReference(bendRadius);
  if (channel.reference !== undefined) checkReference(channel.reference, wall, bendRadius, mirror, problems);
  const largest = channel.largest ?? (kind === 'plate' ? { width: 10, height: 10 } : undefined);
  return { families, wall, edgeRadius, mirror, ...(largest === undefined ? {} : { largest }), reference };
}

/** The largest circle that fits the filler is centred at a quarter of the bend radius. */
function defaultReference(bendRadius: number | undefined): ReferenceChannel {
  if (bendRadius === undefined) return { family: 'ellipse', at: [0, 0], width: 1, height: 1 };
  return { family: 'ellipse', at: [0, bendRadius / 4], width: bendRadius / 10, height: bendRadius / 10 };
}

function checkReference(
  reference: ReferenceChannel,
  wall: number,
  bendRadius: number | undefined,
  mirror: boolean,
  problems: ProblemList,
): void {
  const path = ['channel', 'reference'] as const;
  if (mirror && reference.at[0] !== 0)
    problems.add(
      [...path, 'at', 0],
      '0, the mirror line, as channel.mirror is true',
      'place the reference at [0, y], or set channel.mirror: false',
    );
  if (bendRadius === undefined) return;
  const nearest = wallOfEllipse(reference, bendRadius);
  const size = `an ellipse ${reference.width} by ${reference.height} mm at [${reference.at.join(', ')}]`;
  if (!(nearest > 0))
    problems.add(
      [...path],
      `a channel inside the filler: 0 < y < ${mm(bendRadius)} between the two bends`,
      `move it or make it smaller; most room is at [0, ${Number((bendRadius / 4).toPrecision(4))}]`,
      `${size}, which crosses the border of the filler`,
    );
  else if (!(nearest >= wall - 1e-9))
    problems.add(
      [...path],
      `at least ${mm(wall)} of material around it (channel.wall)`,
      'move it, make it smaller, or take a thinner wall',
      `${size}, with a wall of ${mm(nearest)}`,
    );
}

/** Least distance from an ellipse to the filler's border, mm; negative where it leaves the filler. */
function wallOfEllipse({ at, width, height }: ReferenceChannel, bendRadius: number): number {
  const border = teeFillerBorder(bendRadius);
  const points = 720;
  let least = Number.POSITIVE_INFINITY;
  for (let j = 0; j < points; j++) {
    const s = (2 * Math.PI * j) / points;
    least = Math.min(least, border.distance(at[0] + (width / 2) * Math.cos(s), at[1] + (height / 2) * Math.sin(s)));
  }
  return least;
}
