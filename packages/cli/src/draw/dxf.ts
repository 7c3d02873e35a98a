import type { ShapePath } from '@lumenfront/core';
import { DxfWriter, LWPolylineFlags, point2d, point3d, SplineFlags, Units } from '@tarikjabiri/dxf';
import type { BezierChain } from './curve.js';
import { COORDINATE_DIGITS, type Drawing } from './drawing.js';
import { roomLayer } from './layers.js';

export type DxfCurve = 'polyline' | 'spline';

const rounded = (value: number) => Number(value.toFixed(COORDINATE_DIGITS));

/** Colour numbers of the format: red, grey, blue. */
const COLOURS = { channel: 1, room: 8, lines: 5 } as const;

/**
 * A closed cubic B-spline with double knots: the first and last point of the chain, and its handles. Clamped at its ends,
 * because readers disagree about periodic knots.
 */
function spline(chain: BezierChain) {
  const controlPoints = [point3d(rounded(chain[0]!), rounded(chain[1]!))];
  const knots = [0, 0];
  for (let i = 0; i < chain.length; i += 6) {
    controlPoints.push(point3d(rounded(chain[i + 2]!), rounded(chain[i + 3]!)));
    controlPoints.push(point3d(rounded(chain[i + 4]!), rounded(chain[i + 5]!)));
    knots.push(i / 6, i / 6);
  }
  controlPoints.push(controlPoints[0]!);
  const end = chain.length / 6;
  knots.push(end, end, end, end);
  return { controlPoints, knots, degreeCurve: 3, flags: SplineFlags.Closed | SplineFlags.Planar };
}

/**
 * A DXF file in mm: layer `CHANNEL` holds the outline as one closed LWPOLYLINE or SPLINE, a second one what the channel is embedded in (its
 * arcs exact; `FILLER` in a tee), a third one the host's lines for the workshop (`BEND_LINES`).
 */
export function toDxf(drawing: Drawing, curve: DxfCurve = 'polyline'): string {
  const writer = new DxfWriter();
  writer.setUnits(Units.Millimeters);
  // 1: metric line types and hatches.
  writer.setVariable('$MEASUREMENT', { 70: 1 });
  writer.setVariable('$LASTSAVEDBY', { 1: 'lumenfront' });

  const onLayer = (name: string, colour: number) => {
    writer.addLayer(name, colour, 'CONTINUOUS');
    writer.setCurrentLayerName(name);
  };

  onLayer('CHANNEL', COLOURS.channel);
  if (curve === 'spline') writer.addSpline(spline(drawing.curves));
  else {
    const vertices = [];
    for (let i = 0; i < drawing.vertices.length; i += 2)
      vertices.push({ point: point2d(rounded(drawing.vertices[i]!), rounded(drawing.vertices[i + 1]!)) });
    writer.addLWPolyline(vertices, { flags: LWPolylineFlags.Closed });
  }

  const { shape } = drawing;
  if (shape !== undefined) {
    onLayer(roomLayer(shape), COLOURS.room);
    writer.addLWPolyline(polyline(shape.room), { flags: LWPolylineFlags.Closed });
  }
  if (shape?.lines !== undefined) {
    const { layer, arcs, straight } = shape.lines;
    onLayer(layer, COLOURS.lines);
    for (const { centre, radius, start, end } of arcs) writer.addArc(point3d(...centre), radius, start, end);
    for (const [start, end] of straight) writer.addLine(point3d(...start), point3d(...end));
  }
  // Group 999 is a comment.
  return `999\n${statement(drawing, curve)}\n${writer.stringify()}`;
}

/** Vertices of a closed path, each with the bulge of the side after it: the tangent of a quarter of what that turns. */
function polyline({ from, steps }: ShapePath) {
  const corners = [from, ...steps.slice(0, -1).map(({ to }) => to)];
  const closes = steps.at(-1)!.to.every((value, axis) => value === from[axis]);
  if (!closes) corners.push(steps.at(-1)!.to);
  return corners.map((corner, i) => {
    const arc = steps[i]?.arc;
    return { point: point2d(...corner), ...(arc === undefined ? {} : { bulge: Math.tan(arc.turn / 4) }) };
  });
}

function statement({ area, perimeter, chordError }: Drawing, curve: DxfCurve): string {
  const fit = curve === 'spline' ? 'cubic spline' : `polyline, chord error ${chordError.toFixed(COORDINATE_DIGITS)} mm`;
  return `lumenfront; mm; channel area ${area.toFixed(COORDINATE_DIGITS)} mm2, perimeter ${perimeter.toFixed(COORDINATE_DIGITS)} mm; ${fit}`;
}
