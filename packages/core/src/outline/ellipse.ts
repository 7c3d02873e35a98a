import type { OutlineFamily, OutlineRoom } from './family.js';
import { extent, symmetricFamily } from './symmetric-family.js';

/** Ellipses: `(x, y) = (width/2 cos s, height/2 sin s)`, nodes at equal steps of the eccentric angle. */
export function ellipseFamily(room: OutlineRoom): OutlineFamily {
  const lower = 2 * room.edgeRadius;
  return symmetricFamily(
    {
      name: 'ellipse',
      parameters: [
        extent('width', lower, room.xMax - room.xMin, 'Width before any turn.'),
        extent('height', lower, room.yMax - room.yMin, 'Height before any turn.'),
      ],
      drawRightHalf(values, first, nodes, table) {
        const a = values[first]! / 2;
        const b = values[first + 1]! / 2;
        const { x, y, dx, dy, ddx, ddy } = nodes;
        for (let j = 0, half = nodes.count / 2; j < half; j++) {
          // cos s = sin v, sin s = -cos v
          const c = table.sin[j]!;
          const s = -table.cos[j]!;
          x[j] = a * c;
          y[j] = b * s;
          dx[j] = -a * s;
          dy[j] = b * c;
          ddx[j] = -a * c;
          ddy[j] = -b * s;
        }
      },
    },
    room,
  );
}
