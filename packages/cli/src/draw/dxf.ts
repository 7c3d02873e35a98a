import type { ShapeBox, ShapePath } from '@lumenfront/core';
import {
  DxfWriter,
  HatchBoundaryPaths,
  HatchPolylineBoundary,
  HatchPredefinedPatterns,
  LWPolylineFlags,
  pattern,
  point2d,
  point3d,
  SplineFlags,
  TextHorizontalAlignment,
  Units,
} from '@tarikjabiri/dxf';
import type { BezierChain } from './curve.js';
import { COORDINATE_DIGITS, type Drawing, type DrawnOutline, outlinesOf } from './drawing.js';
import { CHANNEL_LAYER, DIE_LAYER, layerNamed, roomLayer, TITLE_LAYER } from './layers.js';
import { type DrawingWords, digits, extentWords, layOut, outlineBox, type Sheet, widened } from './sheet.js';

export type DxfCurve = 'polyline' | 'spline';

const rounded = (value: number) => Number(value.toFixed(COORDINATE_DIGITS));

/** Colour numbers of the format: red, grey, blue, the pen's own. */
const COLOURS = { channel: 1, room: 8, lines: 5, words: 7 } as const;

/** Texts are so large a share of the window's width. */
const TEXT = 1 / 90;

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
 * A DXF file in mm, at true size: layer `CHANNEL` holds each outline as one closed LWPOLYLINE or SPLINE and is current, others what it is embedded in
 * (arcs exact; `FILLER` in a tee), what stands around that (`SKIN`, `OVERLAMINATE`), the host's lines for the workshop (`BEND_LINES`), names and
 * title block. Seen as a die, layer `DIE` holds the room with the channel as one hatched region, and nothing stands around it.
 */
export function toDxf(
  drawing: Drawing,
  { curve = 'polyline', ...words }: DrawingWords & { readonly curve?: DxfCurve } = {},
): string {
  const { shape } = drawing;
  const die = words.view === 'die';
  const window = windowOf(drawing, die);
  const sheet = layOut(drawing, words, {
    window,
    height: TEXT * (window.xMax - window.xMin),
    scale: 'drawn 1 : 1',
    curve: describeCurve(drawing, curve),
  });
  const writer = new DxfWriter();
  writer.setUnits(Units.Millimeters);
  // 1: metric line types and hatches.
  writer.setVariable('$MEASUREMENT', { 70: 1 });
  writer.setVariable('$LASTSAVEDBY', { 1: 'lumenfront' });
  setExtents(writer, sheet.box);

  const onLayer = (name: string, colour: number) => {
    if (writer.layer(name) === undefined) writer.addLayer(name, colour, 'CONTINUOUS');
    writer.setCurrentLayerName(name);
  };

  onLayer(CHANNEL_LAYER, COLOURS.channel);
  for (const outline of outlinesOf(drawing))
    if (curve === 'spline') writer.addSpline(spline(outline.curves));
    else
      writer.addLWPolyline(
        corners(outline).map(([x, y]) => ({ point: point2d(x, y) })),
        { flags: LWPolylineFlags.Closed },
      );

  if (shape !== undefined) {
    onLayer(roomLayer(shape), COLOURS.room);
    addPath(writer, shape.room);
    if (die) {
      onLayer(DIE_LAYER, COLOURS.room);
      const region = new HatchBoundaryPaths();
      region.addPolylineBoundary(boundary(polyline(shape.room)));
      for (const outline of outlinesOf(drawing))
        region.addPolylineBoundary(boundary(corners(outline).map((corner) => ({ corner }))));
      writer.addHatch(region, pattern({ name: HatchPredefinedPatterns.SOLID }));
    } else {
      for (const { name, path } of shape.parts ?? []) {
        onLayer(layerNamed(name), COLOURS.room);
        addPath(writer, path);
      }
      if (shape.lines !== undefined) {
        const { layer, arcs, straight } = shape.lines;
        onLayer(layer, COLOURS.lines);
        for (const { centre, radius, start, end } of arcs) writer.addArc(point3d(...centre), radius, start, end);
        for (const [start, end] of straight) writer.addLine(point3d(...start), point3d(...end));
      }
    }
  }
  addWords(writer, sheet, onLayer);
  writer.setCurrentLayerName(CHANNEL_LAYER);
  // Group 999 is a comment.
  return `999\n${statement(drawing, curve)}\n${writer.stringify()}`;
}

function windowOf(drawing: Drawing, die: boolean): ShapeBox {
  const { shape } = drawing;
  if (shape === undefined) return widened(outlineBox(drawing), 1);
  return die ? widened(shape.roomBox, 0.05 * (shape.roomBox.xMax - shape.roomBox.xMin)) : shape.whole;
}

function setExtents(writer: DxfWriter, { xMin, xMax, yMin, yMax }: ShapeBox): void {
  const [least, most] = [
    { 10: rounded(xMin), 20: rounded(yMin) },
    { 10: rounded(xMax), 20: rounded(yMax) },
  ];
  writer.setVariable('$EXTMIN', { ...least, 30: 0 });
  writer.setVariable('$EXTMAX', { ...most, 30: 0 });
  writer.setVariable('$LIMMIN', least);
  writer.setVariable('$LIMMAX', most);
}

function addWords(
  writer: DxfWriter,
  { texts, block: { xMin, xMax, yMin, yMax } }: Sheet,
  onLayer: (name: string, colour: number) => void,
): void {
  onLayer(TITLE_LAYER, COLOURS.words);
  const frame = [
    [xMin, yMin],
    [xMax, yMin],
    [xMax, yMax],
    [xMin, yMax],
  ] as const;
  writer.addLWPolyline(
    frame.map(([x, y]) => ({ point: point2d(rounded(x), rounded(y)) })),
    { flags: LWPolylineFlags.Closed },
  );
  for (const { layer, at, height, text, centred } of texts) {
    onLayer(layer, COLOURS.words);
    const place = point3d(rounded(at[0]), rounded(at[1]), 0);
    writer.addText(
      place,
      rounded(height),
      plain(text),
      centred ? { horizontalAlignment: TextHorizontalAlignment.Center, secondAlignmentPoint: place } : {},
    );
  }
}

/** A line as the format holds it: no ends of lines or other control characters, of any user's title. */
const plain = (text: string) => [...text].filter((character) => character >= ' ').join('');

function addPath(writer: DxfWriter, path: ShapePath): void {
  writer.addLWPolyline(
    polyline(path).map(({ corner, bulge }) => ({
      point: point2d(...corner),
      ...(bulge === undefined ? {} : { bulge }),
    })),
    { flags: LWPolylineFlags.Closed },
  );
}

interface Corner {
  readonly corner: readonly [number, number];
  readonly bulge?: number;
}

/** Corners of a closed path, each with the bulge of the side after it: the tangent of a quarter of what that turns. */
function polyline({ from, steps }: ShapePath): Corner[] {
  const all = [from, ...steps.slice(0, -1).map(({ to }) => to)];
  const closes = steps.at(-1)!.to.every((value, axis) => value === from[axis]);
  if (!closes) all.push(steps.at(-1)!.to);
  return all.map((corner, i) => {
    const arc = steps[i]?.arc;
    return { corner, ...(arc === undefined ? {} : { bulge: Math.tan(arc.turn / 4) }) };
  });
}

function corners({ vertices }: DrawnOutline): (readonly [number, number])[] {
  return Array.from({ length: vertices.length / 2 }, (_, i) => [
    rounded(vertices[2 * i]!),
    rounded(vertices[2 * i + 1]!),
  ]);
}

function boundary(all: readonly Corner[]): HatchPolylineBoundary {
  const path = new HatchPolylineBoundary();
  for (const { corner, bulge } of all)
    path.add({ x: corner[0], y: corner[1], ...(bulge === undefined ? {} : { bulge }) });
  return path;
}

function describeCurve({ chordError }: Drawing, curve: DxfCurve): string {
  return curve === 'spline' ? 'cubic spline' : `polyline, chord error ${digits(chordError)} mm`;
}

function statement(drawing: Drawing, curve: DxfCurve): string {
  const { area, perimeter } = drawing;
  return `lumenfront; mm; ${extentWords(drawing)} ${digits(area)} mm2, perimeter ${digits(perimeter)} mm; ${describeCurve(drawing, curve)}`;
}
