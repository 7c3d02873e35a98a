import { type Border, createCurveNodes } from '../../outline/index.js';
import { drawEllipse, type Probe } from '../condensed/index.js';
import type { RoomWish } from '../contract.js';
import { halfRoom } from './contour.js';
import type { PocketForm } from './pocket.js';

/** A pocket where it lies. */
export interface PlacedPocket {
  /** Flat. */
  readonly form: PocketForm;
  /** From the flat laminate to where it lies. */
  fold(s: number, y: number): readonly [number, number];
  /** There. */
  readonly border: Border;
}

const count = 128;

/** Outlines at the limits of wall and edge radius: round over the height of the pocket, flat along it, small at the end of its room. */
export function limitProbes({ form, fold, border }: PlacedPocket, wish: Omit<RoomWish, 'mirror'>): readonly Probe[] {
  const { wall, edgeRadius } = wish;
  const level = (s: number) => (form.lower.at(s) + form.upper.at(s)) / 2;
  const round = (form.upper.at(0) - form.lower.at(0)) / 2 - wall;
  const half = halfRoom(form, wish);
  const small = Math.min(round, 1.2 * edgeRadius + 0.02 * round);
  const flat = Math.min(round, Math.sqrt(half * Math.max(edgeRadius, 0.05 * round)));
  return [
    probe('round', border, wall, fold(0, level(0)), [round, round]),
    probe('flat', border, wall, fold(0, level(0)), [0.95 * half, flat]),
    probe('small at the end', border, wall, fold(half - 1.2 * small, level(half - 1.2 * small)), [small, small]),
  ];
}

/** An ellipse, made smaller until it keeps the wall. */
function probe(
  name: string,
  border: Border,
  wall: number,
  at: readonly [number, number],
  [a, b]: readonly [number, number],
): Probe {
  const nodes = createCurveNodes(count);
  for (let size = 1; size > 0.1; size *= 0.96) {
    drawEllipse(at, size * a, size * b, 0, nodes);
    if (nodes.x.every((x, j) => border.distance(x, nodes.y[j]!) >= wall * (1 - 1e-9))) break;
  }
  return { name, mirror: false, nodes };
}
