import type { Border } from '../../outline/index.js';
import { checkRoundedFiller, roundedFiller } from './rounded-filler.js';

/** The border of a tee's filler: the base `y = 0` and the two bends. `bendRadius` in mm. */
export function teeFillerBorder(bendRadius: number): Border {
  return contourBorder(bendRadius, 0, 0);
}

/**
 * The control contour: the filler's border moved inwards by `offset`, its three tips rounded with `tipRadius`, mm.
 *
 * Inside, the distance is exact. Outside it is exact beyond the base and the tips and at most the distance to the full
 * circle elsewhere, negative everywhere, also beyond the cusps, where the point lies outside both circles and above the
 * base and only the tip tells. Throws InputError when offset and tip radius leave nothing inside.
 */
export function contourBorder(bendRadius: number, offset: number, tipRadius: number): Border {
  checkRoundedFiller(bendRadius, offset, tipRadius);
  const { sideX, sideY, topY } = roundedFiller(bendRadius, offset, offset, tipRadius, tipRadius);
  const arc = bendRadius + offset;
  // Directions from the tips' centres to the centre of the right arc.
  const sideAcross = bendRadius - sideX;
  const sideUp = bendRadius - sideY;
  const topUp = bendRadius - topY;
  return {
    distance(x, y) {
      const px = Math.abs(x);
      const ax = px - bendRadius;
      const ay = y - bendRadius;
      let least = Math.min(y - offset, Math.sqrt(ax * ax + ay * ay) - arc);
      // A tip's circle counts between its two contact points: right of its middle and below the line to the arc's centre…
      const sx = px - sideX;
      const sy = y - sideY;
      if (sx > 0 && sy * sideAcross < sx * sideUp) least = Math.min(least, tipRadius - Math.sqrt(sx * sx + sy * sy));
      // …or above that line at the top.
      const ty = y - topY;
      if (ty * bendRadius > px * topUp) least = Math.min(least, tipRadius - Math.sqrt(px * px + ty * ty));
      return least;
    },
  };
}
