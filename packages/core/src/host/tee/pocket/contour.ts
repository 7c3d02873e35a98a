import type { Border } from '../../../outline/index.js';
import { type ControlContour, contourBorder } from '../../laminate/index.js';
import type { ContourData } from '../../reduced-model.js';
import { type PocketSite, unfoldFrom } from './site.js';

/** The control contour of a pocket: that in the flat laminate, rolled up with it. */
export function contourData({ roll }: Pick<PocketSite, 'roll'>, { data, y }: ControlContour): ContourData {
  return roll === undefined ? data : { ...data, rollRadius: roll.radius, rollLevel: roll.level, rollTop: y.at(-1)! };
}

/** Its border; distances in a bend are told by that share of them to which the roll shortens lengths most. */
export function pocketContourBorder(data: ContourData): Border {
  const flat = contourBorder(data);
  const { rollRadius, rollLevel, rollTop } = data as Readonly<Record<string, number>>;
  if (rollRadius === undefined) return flat;
  const unfold = unfoldFrom({ radius: rollRadius, level: rollLevel! });
  const share = (rollRadius - rollTop!) / (rollRadius - rollLevel!);
  return { distance: (x, y) => share * flat.distance(...unfold(x, y)) };
}
