import { hostOf, type LaminateJoint } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { slottedLaminate } from '../../../../test/fixtures/laminates.js';
import { outlinesOf, prepareDrawing, toDxf } from '../draw/index.js';
import type { ReportDesign, ReportRequest } from './data.js';
import { drawingFrames } from './drawing-frames.js';

const shape = hostOf(slottedLaminate(1) as LaminateJoint).shape!;

function circle(count: number) {
  const angles = Array.from({ length: count }, (_, i) => ((i + 0.5) * 2 * Math.PI) / count - Math.PI / 2);
  const [x, y] = [angles.map((s) => 0.4 + 0.1 * Math.cos(s)), angles.map((s) => 0.75 + 0.1 * Math.sin(s))];
  return { x, y, dx: angles.map((s) => -0.1 * Math.sin(s)), dy: angles.map((s) => 0.1 * Math.cos(s)) };
}

describe('the drawing frames of a page', () => {
  it.each([1, 2, 3, 4])('become the file that draw writes of %i channels', (number) => {
    const drawing = { ...prepareDrawing({ outline: circle, channels: { number, pitch: 0.8 } }), shape };
    const files = {} as NonNullable<ReportDesign['files']>;
    const others = Array.from({ length: number - 1 }, () => ({ outline: [], hoop: {} }));
    const design = { files, others } as unknown as ReportDesign;
    const frames = drawingFrames({ title: 'Several', shape, designs: [design] } as unknown as ReportRequest)!;
    const written = (vertices: Float64Array) =>
      Array.from(vertices, (value, i) => `${i % 2 === 0 ? 10 : 20}\n${Number(value.toFixed(6))}`).join('\n');
    const filled = outlinesOf(drawing)
      .reduce((text, { vertices }, k) => text.replace(`{{vertices ${k}}}`, written(vertices)), frames.dxf!)
      .replaceAll('{{count}}', String(drawing.vertices.length / 2))
      .replaceAll('{{area}}', drawing.area.toFixed(6))
      .replaceAll('{{perimeter}}', drawing.perimeter.toFixed(6))
      .replaceAll('{{chordError}}', drawing.chordError.toFixed(6));
    expect(filled).toBe(toDxf(drawing, { title: 'Several' }));
  });
});
