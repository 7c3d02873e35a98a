import {
  type Curve,
  channelBorder,
  channelRoom,
  createCurveNodes,
  createOutlineMeasure,
  followOutline,
  limitsStrength,
  measureOutline,
  outlineOf,
  pitchTolerance,
  type ResolvedBrief,
} from '@lumenfront/core';
import type { NearestChannel } from '../channel/index.js';
import { referenceCurve } from './reference.js';

const number = (value: number) => String(Number(value.toPrecision(4)));

/** Why a search found no channel: the constraint that the nearest one misses by most, by how much, and what would help. */
export function describeNearest(brief: ResolvedBrief, nearest: NearestChannel | undefined): string {
  if (nearest === undefined) return 'no outline was evaluated; raise search.evaluations';
  const { wall, edgeRadius, largest, group } = brief.channel;
  const pitch = group !== undefined && group.number % 2 === 0 ? group.pitch : undefined;
  const each = group === undefined ? '' : ' each';
  const measure = measured(brief, outlineOf(nearest, channelRoom(brief)));
  const found = `the nearest of ${brief.channel.families.join(', ')}, ${article(nearest.family)} of ${number(measure.area)} mm²${each},`;
  switch (nearest.constraint) {
    case 'room':
      return measure.wall < wall
        ? `no channel was found that keeps channel.wall: ${found} has a wall of ${number(measure.wall)} mm, ${number(wall - measure.wall)} mm short of ${number(wall)} mm; ${remedyOf(brief, 'lower channel.wall or channel.edgeRadius')}`
        : pitch !== undefined && Math.abs(2 * measure.centroidX - pitch) > pitchTolerance * pitch
          ? `no channels keep channels.pitch: ${found} would have a pitch of ${number(2 * measure.centroidX)} mm, ${number(pitch)} mm is asked for; leave channels.pitch out, lower channel.wall or channel.edgeRadius, or search longer (search.evaluations)`
          : `no channel stays within channel.largest: ${found} is ${number(measure.width)} mm wide and ${number(measure.height)} mm high, the most is ${number(largest?.width ?? Number.NaN)} by ${number(largest?.height ?? Number.NaN)} mm; raise channel.largest or lower channel.edgeRadius`;
    case 'edgeRadius':
      return `no channel was found that keeps channel.edgeRadius: ${found} has a least edge radius of ${number(measure.edgeRadius)} mm, ${number(edgeRadius - measure.edgeRadius)} mm short of ${number(edgeRadius)} mm; ${remedyOf(brief, 'lower channel.edgeRadius or channel.wall')}`;
    case 'crossing':
      return `no outline was found that does not cross itself; search longer (search.evaluations) or add the family ellipse`;
    case 'strength':
      if (!limitsStrength(brief))
        return `no channel keeps the joint whole in the cure alone: ${found} misses it by ${number(100 * nearest.violation)} %; lower loads.cure, judge the edge by a characteristic distance (strength.edge), or search longer (search.evaluations)`;
      return `no channel keeps what is asked of strength (strength.leastRetained, strength.startsAwayFromEdge): ${found} misses it by ${number(100 * nearest.violation)} %; ask for less, lower the loads, judge the edge by a characteristic distance (strength.edge), or search longer (search.evaluations)`;
    case 'peak':
      return `no channel stays within the allowed peak: ${found} misses it by ${number(100 * nearest.violation)} %`;
  }
}

function measured(brief: ResolvedBrief, outline: Curve) {
  const nodes = createCurveNodes(512);
  outline.place(nodes);
  const measure = createOutlineMeasure();
  measureOutline(nodes, channelBorder(followOutline(brief, outline)), measure);
  return measure;
}

/** Where the reference keeps wall and edge radius, only the search was too short. */
function remedyOf(brief: ResolvedBrief, lower: string): string {
  const { wall, edgeRadius, reference } = brief.channel;
  const own = measured(brief, referenceCurve(reference));
  return own.wall >= wall && own.edgeRadius >= edgeRadius
    ? 'the reference keeps both, so that there are some: search longer (search.evaluations)'
    : `${lower}, or search longer (search.evaluations)`;
}

const article = (family: string) => `${/^[aeiou]/.test(family) ? 'an' : 'a'} ${family}`;
