import { shapeInSection } from '@lumenfront/core';
import { type Drawing, outlinesOf, prepareDrawing, toDxf, toSvg } from '../draw/index.js';
import type { PageData, ReportRequest } from './data.js';

/**
 * Drawings of a request with marks in the place of what differs between its designs, so that the page can make every design's file, the same as
 * `draw` writes, without the programs that write them:
 * `{{vertices 0}}` and `{{count}}`, `{{area}}`, `{{perimeter}}`, `{{chordError}}` (mm, six decimals), `{{path}}` in the SVG; of several channels
 * `{{vertices 1}}` and so on, of the others. Where every design has a section of its own, the outline alone: `draw` draws it in its section.
 */
export function drawingFrames({ title, shape, designs }: ReportRequest): PageData['frames'] {
  if (shape === undefined || !designs.some(({ files }) => files !== undefined)) return undefined;
  const number = 1 + Math.max(...designs.map(({ others = [] }) => others.length));
  const own = designs.some((design) => design.shape !== undefined);
  const marks = { ...markedDrawing(number), ...(own ? {} : { shape: shapeInSection(shape) }) };
  const numbered = (text: string) =>
    text
      .replaceAll(marks.area.toFixed(6), '{{area}}')
      .replaceAll(marks.perimeter.toFixed(6), '{{perimeter}}')
      .replaceAll(marks.chordError.toFixed(6), '{{chordError}}');
  const written = (vertices: Float64Array) =>
    [...vertices].map((value, i) => `${i % 2 === 0 ? 10 : 20}\n${value}`).join('\n');
  const dxf = outlinesOf(marks).reduce(
    (text, { vertices }, k) => text.replace(written(vertices), `{{vertices ${k}}}`),
    numbered(toDxf(marks, { title })),
  );
  const svg = numbered(toSvg(marks, { title })).replace(/(<path id="CHANNEL" d=")[^"]*"/, '$1{{path}}"');
  return {
    dxf: dxf.replace(/(AcDbPolyline\n90\n)3(\n(?:\d+\n0?1?\n)*\{\{vertices \d\}\})/g, '$1{{count}}$2'),
    svg,
  };
}

/** A triangle whose numbers occur nowhere else in a drawing, one for each outline. */
const markVertices = (k: number) =>
  Float64Array.of(0.000101, 0.000202, 0.000303, 0.000202, 0.000202, 0.000404).map((value) => value + 0.001 * k);

function markedDrawing(number: number): Drawing {
  const any = prepareDrawing({ outline: circle, channels: { number, pitch: 1 } });
  return {
    ...any,
    ...(any.others && { others: any.others.map((other, k) => ({ ...other, vertices: markVertices(k + 1) })) }),
    vertices: markVertices(0),
    area: 0.000511,
    perimeter: 0.000622,
    chordError: 0.000733,
  };
}

function circle(count: number) {
  const angles = Array.from({ length: count }, (_, i) => ((i + 0.5) * 2 * Math.PI) / count);
  const [sines, cosines] = [angles.map(Math.sin), angles.map(Math.cos)];
  return { x: cosines, y: sines, dx: sines.map((y) => -y), dy: cosines };
}
