import { type CurveNodes, createCurveNodes } from '../../outline/index.js';
import { drawEllipse, type Probe } from '../condensed/index.js';
import { teeFillerBorder } from './border.js';
import { teeFamilies } from './inset.js';
import { roundedFiller } from './rounded-filler.js';

const mirrorNodes = 192;
const freeNodes = 128;

/**
 * Outlines at the limits of wall and edge radius (mm): in the tips of the filler, along its base, over all of it, tilted
 * against a bend. Where a model holds for these, it did so for every other outline that was tried.
 */
export function limitProbes(bendRadius: number, wall: number, edgeRadius: number): readonly Probe[] {
  const R = bendRadius;
  const border = teeFillerBorder(R);
  const keeps = (nodes: CurveNodes) => {
    for (let j = 0; j < nodes.count; j++) if (border.distance(nodes.x[j]!, nodes.y[j]!) < wall) return false;
    return true;
  };
  const { sideX, topY } = roundedFiller(R, wall, wall, edgeRadius, edgeRadius);
  const probes: Probe[] = [];
  const add = (name: string, mirror: boolean, place: (nodes: CurveNodes) => void) => {
    const nodes = createCurveNodes(mirror ? mirrorNodes : freeNodes);
    place(nodes);
    probes.push({ name, mirror, nodes });
  };
  // A fifth above the least: what touches both sides of a tip everywhere is no channel that anybody makes.
  const small = 1.2 * Math.max(edgeRadius, R / 200);
  const tip = roundedFiller(R, wall, wall, small, small);
  add('circle in the top', true, (nodes) => drawEllipse([0, tip.topY], small, small, 0, nodes));
  add('circle in the side', false, (nodes) => drawEllipse([tip.sideX, tip.sideY], small, small, 0, nodes));
  const low = Math.min(R / 8, (topY - wall) / 4);
  add('circle on the base', true, (nodes) => drawEllipse([0, wall + low], low, low, 0, nodes));
  const halfWidth = Math.min(R / 3, sideX);
  const flat = Math.sqrt(small * halfWidth);
  if (flat < halfWidth) {
    const along = createCurveNodes(mirrorNodes);
    drawEllipse([0, wall + flat], halfWidth, flat, 0, along);
    if (keeps(along)) probes.push({ name: 'flat ellipse along the base', mirror: true, nodes: along });
  }
  const tilted = createCurveNodes(freeNodes);
  for (let size = 0.3 * R; size > small; size *= 0.9) {
    drawEllipse([0.18 * R, 0.28 * R], size, size / 2, -Math.PI / 4, tilted);
    if (!keeps(tilted)) continue;
    probes.push({ name: 'tilted ellipse', mirror: false, nodes: tilted });
    break;
  }
  const largest = teeFamilies(R).inset!({ mirror: true, xMin: -R, xMax: R, yMin: wall, yMax: R, edgeRadius: small });
  const values = largest.parameters.map(({ lower }) => lower);
  add('largest inset', true, (nodes) => largest.place(values, nodes));
  return probes;
}
