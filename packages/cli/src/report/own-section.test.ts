import { hostOf, type LaminateJoint } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { slottedLaminate } from '../../../../test/fixtures/laminates.js';
import type { ReportDesign } from './data.js';
import { pageData } from './page-data.js';

const plain = slottedLaminate(1) as LaminateJoint;
const lens = (height: number): LaminateJoint => ({
  ...plain,
  pocket: { made: 'drape', below: 1, height, halfLength: 2, faces: 'both-flat' },
});
const shapeAt = (height: number) => hostOf(lens(height)).shape!;
const design = (height: number): ReportDesign => ({
  ...{ family: 'ellipse', area: 0.1, conductance: 1e-4, peak: 50, minEdgeRadius: 0.1, parameters: {} },
  cases: { one: { peak: 50, at: [0, 0], least: -1 } },
  outline: [
    [0.1, 0],
    [0, 0.1],
    [-0.1, 0],
  ],
  shape: shapeAt(height),
  files: { vertices: [], curves: [], area: '0.1', perimeter: '1', chordError: '0.001' },
});

describe('channels whose pockets follow them', () => {
  const request = { title: 'pockets', brief: [], validation: [], cautions: [], search: [], versions: {} };
  const page = pageData({ ...request, shape: shapeAt(0.4), designs: [design(0.4), design(0.6)] });

  it('have each its own section on the page', () => {
    const rooms = page.designs.map(({ section }) => section!.room);
    expect(rooms[0]).toBe(page.section!.room);
    expect(rooms[1]).not.toBe(rooms[0]);
    expect(page.designs[1]!.section!.layers).toHaveLength(page.section!.layers.length);
  });

  it('are saved without the plies of another', () => {
    expect(page.frames!.svg).toContain('{{path}}');
    expect(page.frames!.dxf).not.toContain('PLIES');
  });
});
