import { DxfWriter, LWPolylineFlags, point2d, point3d, SplineFlags, Units } from '@tarikjabiri/dxf';
import type { BezierChain } from './curve.js';
import { COORDINATE_DIGITS, type Drawing } from './drawing.js';
import { bendLines, fillerCorners } from './section.js';

export type DxfCurve = 'polyline' | 'spline';

const rounded = (value: number) => Number(value.toFixed(COORDINATE_DIGITS));

/** Colour numbers of the format: red, grey, blue. */
const LAYERS = { CHANNEL: 1, FILLER: 8, BEND_LINES: 5 } as const;

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
 * A DXF file in mm: layer `CHANNEL` holds the outline as one closed LWPOLYLINE or SPLINE, `FILLER` the filler's border (its
 * arcs exact), `BEND_LINES` the free surfaces of the bends and the lines where the bends begin and end.
 */
export function toDxf(drawing: Drawing, curve: DxfCurve = 'polyline'): string {
  const writer = new DxfWriter();
  writer.setUnits(Units.Millimeters);
  // 1: metric line types and hatches.
  writer.setVariable('$MEASUREMENT', { 70: 1 });
  writer.setVariable('$LASTSAVEDBY', { 1: 'lumenfront' });

  const onLayer = (name: keyof typeof LAYERS) => {
    writer.addLayer(name, LAYERS[name], 'CONTINUOUS');
    writer.setCurrentLayerName(name);
  };

  onLayer('CHANNEL');
  if (curve === 'spline') writer.addSpline(spline(drawing.curves));
  else {
    const vertices = [];
    for (let i = 0; i < drawing.vertices.length; i += 2)
      vertices.push({ point: point2d(rounded(drawing.vertices[i]!), rounded(drawing.vertices[i + 1]!)) });
    writer.addLWPolyline(vertices, { flags: LWPolylineFlags.Closed });
  }

  if (drawing.joint !== undefined) {
    onLayer('FILLER');
    // A side turns clockwise through 90 degrees; the bulge is the tangent of a quarter of that.
    const bulge = -Math.tan(Math.PI / 8);
    const [left, right, top] = fillerCorners(drawing.joint.bendRadius);
    writer.addLWPolyline(
      [{ point: point2d(...left) }, { point: point2d(...right), bulge }, { point: point2d(...top), bulge }],
      { flags: LWPolylineFlags.Closed },
    );

    onLayer('BEND_LINES');
    const { arcs, lines } = bendLines(drawing.joint);
    for (const { centre, radius, start, end } of arcs) writer.addArc(point3d(...centre), radius, start, end);
    for (const [start, end] of lines) writer.addLine(point3d(...start), point3d(...end));
  }
  // Group 999 is a comment.
  return `999\n${statement(drawing, curve)}\n${writer.stringify()}`;
}

function statement({ area, perimeter, chordError }: Drawing, curve: DxfCurve): string {
  const fit = curve === 'spline' ? 'cubic spline' : `polyline, chord error ${chordError.toFixed(COORDINATE_DIGITS)} mm`;
  return `lumenfront; mm; channel area ${area.toFixed(COORDINATE_DIGITS)} mm2, perimeter ${perimeter.toFixed(COORDINATE_DIGITS)} mm; ${fit}`;
}
