import type { OutlineFamily, OutlineRoom } from './family.js';
import { writeShift } from './node-rates.js';
import { extent, symmetricFamily } from './symmetric-family.js';

/**
 * Smooth teardrops (derived here): `y = height/2 sin s`, `x = a cos s exp(-taper sin s)`, an ellipse whose width falls
 * exponentially along the axis. Round below and tapering upwards for a positive taper, the reverse for a negative one, an
 * ellipse at 0. The flanks become straight at a taper of 0.806, where the curvature's sign, that of
 * `1 - 2 taper u (1 - u^2) - taper^2 (1 - u^2)^2` with `u = sin s`, first touches 0, and are hollow beyond. Radii of curvature at the ends: `(a exp(-±taper))^2 / (height/2)`.
 */
export function teardropFamily(room: OutlineRoom): OutlineFamily {
  const lower = 2 * room.edgeRadius;
  return symmetricFamily(
    {
      name: 'teardrop',
      parameters: [
        extent('width', lower, room.xMax - room.xMin, 'Largest width across the axis.'),
        extent('height', lower, room.yMax - room.yMin, 'Length along the axis.'),
        {
          name: 'taper',
          unit: '1',
          lower: -1.5,
          upper: 1.5,
          meaning:
            'How far it tapers: positive with the tip up, negative with the tip down, 0 an ellipse, 0.8 straight flanks, more hollow ones.',
        },
      ],
      drawRightHalf(values, first, nodes, table) {
        const b = values[first + 1]! / 2;
        const taper = values[first + 2]!;
        const a = values[first]! / (2 * halfWidth(taper));
        const { x, y, dx, dy, ddx, ddy } = nodes;
        for (let j = 0, half = nodes.count / 2; j < half; j++) {
          const c = table.sin[j]!;
          const s = -table.cos[j]!;
          const e = a * Math.exp(-taper * s);
          // x = e c, and e' = -taper c e
          x[j] = e * c;
          dx[j] = -e * (s + taper * c * c);
          ddx[j] = e * c * (3 * taper * s - 1 + taper * taper * c * c);
          y[j] = b * s;
          dy[j] = b * c;
          ddy[j] = -b * s;
        }
      },
      rateRightHalf(values, first, { count, sin, cos }, out, row) {
        const taper = values[first + 2]!;
        const scale = 1 / (2 * halfWidth(taper));
        const width = values[first]!;
        const widest = widestSine(taper);
        for (let k = 0; k < 3; k++) writeShift(out, row + k, count, 0, 0);
        for (let j = 0, wide = row * count; j < count / 2; j++, wide++) {
          const high = wide + count;
          const tapered = high + count;
          const c = sin[j]!;
          const s = -cos[j]!;
          const e = scale * Math.exp(-taper * s);
          const x = e * c;
          const dx = -e * (s + taper * c * c);
          const ddx = x * (3 * taper * s - 1 + taper * taper * c * c);
          out.x[wide] = x;
          out.dx[wide] = dx;
          out.ddx[wide] = ddx;
          out.y[high] = s / 2;
          out.dy[high] = c / 2;
          out.ddy[high] = -s / 2;
          // The exponential's rate is -s, the largest width's -widest (its place does not count to first order).
          const rate = widest - s;
          out.x[tapered] = width * x * rate;
          out.dx[tapered] = width * (dx * rate - x * c);
          out.ddx[tapered] = width * (ddx * rate - 2 * dx * c + x * s);
        }
      },
    },
    room,
  );
}

/** `sin s` where the teardrop is widest: `sin s = taper (sin^2 s - 1)`. */
function widestSine(taper: number): number {
  return (-2 * taper) / (1 + Math.sqrt(1 + 4 * taper * taper));
}

/** Largest `cos s exp(-taper sin s)`. */
function halfWidth(taper: number): number {
  const sine = widestSine(taper);
  return Math.sqrt(1 - sine * sine) * Math.exp(-taper * sine);
}
