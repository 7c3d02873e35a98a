import type { OutlineFamily, OutlineRoom } from './family.js';
import { writeShift } from './node-rates.js';
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
      rateRightHalf(_values, _first, { count, sin, cos }, out, row) {
        writeShift(out, row, count, 0, 0);
        writeShift(out, row + 1, count, 0, 0);
        for (let j = 0, wide = row * count, high = wide + count; j < count / 2; j++, wide++, high++) {
          const c = sin[j]! / 2;
          const s = -cos[j]! / 2;
          out.x[wide] = c;
          out.dx[wide] = -s;
          out.ddx[wide] = -c;
          out.y[high] = s;
          out.dy[high] = c;
          out.ddy[high] = -s;
        }
      },
    },
    room,
  );
}
