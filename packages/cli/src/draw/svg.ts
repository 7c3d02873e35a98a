import type { HostShape, ShapeArc } from '@lumenfront/core';
import { escapeMarkup } from '../markup.js';
import { shapePathData } from '../shape-path.js';
import type { BezierChain } from './curve.js';
import { COORDINATE_DIGITS, type Drawing } from './drawing.js';
import { roomLayer } from './layers.js';

const MARGIN = 1;

/** Coordinates as SVG writes them: y points down. */
const point = (x: number, y: number) =>
  `${Number(x.toFixed(COORDINATE_DIGITS))} ${Number((-y).toFixed(COORDINATE_DIGITS))}`;

/** Path data of a closed chain of Bézier curves. */
export function chainPath(chain: BezierChain): string {
  const parts = [`M${point(chain[0]!, chain[1]!)}`];
  for (let i = 0; i < chain.length; i += 6) {
    const end = (i + 6) % chain.length;
    parts.push(
      `C${point(chain[i + 2]!, chain[i + 3]!)} ${point(chain[i + 4]!, chain[i + 5]!)} ${point(chain[end]!, chain[end + 1]!)}`,
    );
  }
  return `${parts.join('')}Z`;
}

function linesPath({ arcs, straight }: NonNullable<HostShape['lines']>): string {
  const on = ({ centre, radius }: ShapeArc, degrees: number) => {
    const angle = (degrees * Math.PI) / 180;
    return point(centre[0] + radius * Math.cos(angle), centre[1] + radius * Math.sin(angle));
  };
  return [
    ...arcs.map((arc) => `M${on(arc, arc.start)}A${arc.radius} ${arc.radius} 0 0 0 ${on(arc, arc.end)}`),
    ...straight.map(([start, end]) => `M${point(...start)}L${point(...end)}`),
  ].join('');
}

function box({ vertices, shape }: Drawing) {
  let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < vertices.length; i += 2) {
    left = Math.min(left, vertices[i]!);
    right = Math.max(right, vertices[i]!);
    bottom = Math.min(bottom, vertices[i + 1]!);
    top = Math.max(top, vertices[i + 1]!);
  }
  if (shape !== undefined) {
    const { xMin, xMax, yMin, yMax } = shape.roomBox;
    left = Math.min(left, xMin);
    right = Math.max(right, xMax);
    bottom = Math.min(bottom, yMin);
    top = Math.max(top, yMax);
  }
  return {
    left: left - MARGIN,
    top: top + MARGIN,
    width: right - left + 2 * MARGIN,
    height: top - bottom + 2 * MARGIN,
  };
}

/** An SVG at true scale: one unit of the drawing is one millimetre on paper. Groups are named as the layers of the DXF. */
export function toSvg(drawing: Drawing, title = 'Channel'): string {
  const { left, top, width, height } = box(drawing);
  const size = (value: number) => Number(value.toFixed(COORDINATE_DIGITS));
  const groups = [`<path id="CHANNEL" d="${chainPath(drawing.curves)}" stroke="#000000"/>`];
  const { shape } = drawing;
  if (shape !== undefined) {
    const room = shapePathData(
      shape.room,
      (at) => point(...at),
      (mm) => mm,
    );
    groups.push(`<path id="${roomLayer(shape)}" d="${room}" stroke="#707070"/>`);
    if (shape.lines !== undefined)
      groups.push(
        `<path id="${shape.lines.layer}" d="${linesPath(shape.lines)}" stroke="#707070" stroke-dasharray="0.4 0.2"/>`,
      );
  }
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${size(width)}mm" height="${size(height)}mm" viewBox="${size(left)} ${size(-top)} ${size(width)} ${size(height)}" fill="none" stroke-width="0.03">
<title>${escapeMarkup(title)}</title>
<desc>Millimetres; channel area ${size(drawing.area)} mm², perimeter ${size(drawing.perimeter)} mm.</desc>
${groups.join('\n')}
</svg>
`;
}
