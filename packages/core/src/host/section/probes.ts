import { createCurveNodes, ellipseFamily } from '../../outline/index.js';
import type { Probe } from '../condensed/index.js';
import type { RoomWish } from '../contract.js';
import type { SectionBody } from './body.js';
import { roomLine } from './contour.js';

/** Directions in which the room is felt for. */
const directions = 8;
const nodeCount = 128;

/** Outlines at the limits of wall and edge radius: the largest circle, and small ones in the corners of the room. */
export function limitProbes(
  { border, box, circle }: SectionBody,
  { wall, edgeRadius }: Pick<RoomWish, 'wall' | 'edgeRadius'>,
): readonly Probe[] {
  const family = ellipseFamily({ mirror: false, ...box, edgeRadius: 0 });
  const circleAt = (name: string, x: number, y: number, radius: number): Probe => {
    const nodes = createCurveNodes(nodeCount);
    family.place([x, y, 2 * radius, 2 * radius, 0], nodes);
    return { name, mirror: false, nodes };
  };
  const probes = [circleAt('the largest circle', ...circle.at, circle.radius - wall)];
  // A fifth above the least: what touches both sides of a corner everywhere is no channel that anybody makes.
  const small = 1.2 * Math.max(edgeRadius, circle.radius / 50);
  const line = roomLine(border, box, wall + small, circle.at, 0.1 * small);
  if (line === undefined) return probes;
  const taken: (readonly [number, number])[] = [];
  for (let k = 0; k < directions; k++) {
    const [c, s] = [Math.cos((2 * Math.PI * k) / directions), Math.sin((2 * Math.PI * k) / directions)];
    let far = 0;
    for (let i = 1; i < line.x.length; i++)
      if (c * line.x[i]! + s * line.y[i]! > c * line.x[far]! + s * line.y[far]!) far = i;
    const at = [line.x[far]!, line.y[far]!] as const;
    if (taken.some(([x, y]) => Math.hypot(x - at[0], y - at[1]) < small)) continue;
    taken.push(at);
    probes.push(circleAt(`a small circle in corner ${taken.length}`, ...at, small));
  }
  return probes;
}
