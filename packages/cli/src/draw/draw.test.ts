import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import dxfParser, { type IArcEntity, type ILwpolylineEntity, type ISplineEntity } from 'dxf-parser';
import { describe, expect, it } from 'vitest';
import { deltoid, ellipse, slot, TEST_OUTLINES } from '../../../../test/fixtures/outlines.js';
import { type Extent, farthestFrom, polygonExtent, sampleExtent } from './curve.js';
import { type Drawing, prepareDrawing, toCsv, toDxf, toSvg } from './index.js';

// At run time the package is its class, though its types say a module.
const DxfParser = dxfParser as unknown as typeof dxfParser.DxfParser;

const joint = { bendRadius: 5, overlaminate: Array.from({ length: 8 }, () => ({ thickness: 0.25 })) };

/** 0.01 %, what every format promises. */
const PROMISE = 1e-4;

function expectExtent(read: Extent, outline: (typeof TEST_OUTLINES)[number]) {
  const { perimeter } = sampleExtent(outline.sample(4096));
  expect(Math.abs(read.area / outline.area - 1)).toBeLessThan(PROMISE);
  expect(Math.abs(read.perimeter / perimeter - 1)).toBeLessThan(PROMISE);
}

const polygon = (points: ReadonlyArray<{ readonly x: number; readonly y: number }>) =>
  polygonExtent(Float64Array.from(points.flatMap(({ x, y }) => [x, y])));

/** De Boor's algorithm, de Boor, A Practical Guide to Splines (1978), ch. X. */
function splinePoint({ controlPoints, knotValues, degreeOfSplineCurve: p }: ISplineEntity, u: number) {
  let span = p;
  while (span < controlPoints!.length - 1 && u >= knotValues[span + 1]!) span++;
  const d = controlPoints!.slice(span - p, span + 1).map(({ x, y }) => ({ x, y }));
  for (let r = 1; r <= p; r++)
    for (let j = p; j >= r; j--) {
      const low = knotValues[span - p + j]!;
      const w = (u - low) / (knotValues[span + 1 + j - r]! - low);
      d[j] = { x: (1 - w) * d[j - 1]!.x + w * d[j]!.x, y: (1 - w) * d[j - 1]!.y + w * d[j]!.y };
    }
  return d[p]!;
}

function splinePolygon(entity: ISplineEntity, perKnot = 32) {
  const end = entity.knotValues.at(-1)!;
  return polygon(Array.from({ length: end * perKnot }, (_, i) => splinePoint(entity, i / perKnot)));
}

/** The points of a path of absolute M, L, C and Z, in the y-up frame. */
function pathPolygon(data: string, perCurve = 32) {
  const points: { x: number; y: number }[] = [];
  for (const [, letter, numbers] of data.matchAll(/([MLC])([^MLCZ]*)/g)) {
    const v = numbers!.trim().split(/\s+/).map(Number);
    if (letter !== 'C') points.push({ x: v[0]!, y: -v[1]! });
    else {
      const { x, y } = points.at(-1)!;
      const p = [x, -y, ...v];
      for (let i = 1; i <= perCurve; i++) {
        const u = i / perCurve;
        const at = (axis: number) =>
          (1 - u) ** 3 * p[axis]! +
          3 * (1 - u) ** 2 * u * p[axis + 2]! +
          3 * (1 - u) * u ** 2 * p[axis + 4]! +
          u ** 3 * p[axis + 6]!;
        points.push({ x: at(0), y: -at(1) });
      }
    }
  }
  return polygon(points);
}

const entity = <T>(dxf: string, layer: string, type: string) =>
  new DxfParser().parseSync(dxf)!.entities.filter((e) => e.layer === layer && e.type === type) as unknown as T[];

describe.each(TEST_OUTLINES)('a drawn $name', (outline) => {
  const drawing = prepareDrawing({ outline: outline.sample, joint });

  it('states the exact area', () => {
    expect(Math.abs(drawing.area / outline.area - 1)).toBeLessThan(1e-6);
  });

  it('keeps within its chord error, seen at points of another sampling', () => {
    expect(drawing.chordError).toBeLessThanOrEqual(0.001);
    const seen = farthestFrom(drawing.vertices, outline.sample(7 * drawing.vertices.length + 1));
    expect(seen).toBeLessThanOrEqual(0.001);
    // A measured error that misses the middle of the chords would be far too small.
    expect(drawing.chordError).toBeGreaterThan(0.9 * seen);
  });

  it('has area and perimeter of the design in a DXF polyline', () => {
    const [channel] = entity<ILwpolylineEntity>(toDxf(drawing), 'CHANNEL', 'LWPOLYLINE');
    expect(channel!.shape).toBe(true);
    expectExtent(polygon(channel!.vertices), outline);
  });

  it('has area and perimeter of the design in a DXF spline', () => {
    const [channel] = entity<ISplineEntity>(toDxf(drawing, 'spline'), 'CHANNEL', 'SPLINE');
    expect(channel!.closed).toBe(true);
    expect(channel!.controlPoints).toHaveLength(channel!.knotValues.length - 4);
    expectExtent(splinePolygon(channel!), outline);
  });

  it('has area and perimeter of the design in the SVG path', () => {
    const data = /id="CHANNEL" d="([^"]*)"/.exec(toSvg(drawing))![1]!;
    expectExtent(pathPolygon(data), outline);
  });

  it('has area and perimeter of the design in the CSV', () => {
    const [header, ...rows] = toCsv(drawing).trimEnd().split('\n');
    expect(header).toBe('x_mm,y_mm');
    expectExtent(polygon(rows.map((row) => row.split(',').map(Number)).map(([x, y]) => ({ x: x!, y: y! }))), outline);
  });
});

describe('the chord error', () => {
  const { sample } = ellipse(1, 0.5, 1.25);
  const count = (chordError: number) => prepareDrawing({ outline: sample, chordError }).vertices.length / 2;

  it('takes more vertices when finer', () => {
    expect(count(1e-5)).toBeGreaterThan(count(1e-3));
  });

  it.each([0, -1, 2, Number.NaN])('of %s mm is refused', (chordError) => {
    expect(() => prepareDrawing({ outline: sample, chordError })).toThrow(/chord error: expected 0.00001 to 1 mm/);
  });
});

it('refuses a clockwise outline', () => {
  const { sample } = ellipse(1, 0.5, 0);
  const reversed = (n: number) => {
    const { x, y, dx, dy } = sample(n);
    const negative = (values: ArrayLike<number>) => Array.from(values, (value) => -value);
    return { x, y: negative(y), dx, dy: negative(dy) };
  };
  expect(() => prepareDrawing({ outline: reversed })).toThrow(/counter-clockwise/);
});

describe('the drawing of a tee', () => {
  const drawing = prepareDrawing({ outline: deltoid(0.9, 0.43, 1.2).sample, joint });
  const dxf = new DxfParser().parseSync(toDxf(drawing))!;

  it('is in millimetres', () => {
    expect(dxf.header.$INSUNITS).toBe(4);
    expect(dxf.header.$MEASUREMENT).toBe(1);
    expect(toSvg(drawing)).toMatch(/<svg [^>]*width="12mm" height="7mm" viewBox="-6 -6 12 7"/);
  });

  it('has the layers of channel, filler and bend lines', () => {
    expect(Object.keys(dxf.tables.layer.layers)).toEqual(expect.arrayContaining(['CHANNEL', 'FILLER', 'BEND_LINES']));
  });

  it('encloses the filler by exact arcs', () => {
    const [filler] = entity<ILwpolylineEntity>(toDxf(drawing), 'FILLER', 'LWPOLYLINE');
    // Corners and, from the definition of a bulge as sagitta over half chord, the segments cut off between chord and arc.
    const chords = polygon(filler!.vertices).area;
    const cut = filler!.vertices.reduce((sum, { x, y, bulge }, i, all) => {
      const next = all[(i + 1) % all.length]!;
      const angle = 4 * Math.atan(bulge ?? 0);
      const radius = Math.hypot(next.x - x, next.y - y) / 2 / Math.sin(Math.abs(angle) / 2 || 1);
      return sum + (radius ** 2 / 2) * (angle - Math.sin(angle));
    }, 0);
    expect(chords + cut).toBeCloseTo(2 * 25 * (1 - Math.PI / 4), 6);
  });

  it('puts bend lines across the overlaminate and on its free surface', () => {
    expect(entity(toDxf(drawing), 'BEND_LINES', 'LINE')).toHaveLength(4);
    const arcs = entity<IArcEntity>(toDxf(drawing), 'BEND_LINES', 'ARC');
    expect(arcs.map(({ center, radius }) => [center.x, center.y, radius])).toEqual([
      [5, 5, 3],
      [-5, 5, 3],
    ]);
  });

  it('leaves the joint out where there is none', () => {
    const alone = prepareDrawing({ outline: ellipse(1, 0.5, 0).sample });
    expect(Object.keys(new DxfParser().parseSync(toDxf(alone))!.tables.layer.layers)).not.toContain('FILLER');
    expect(toSvg(alone)).toMatch(/viewBox="-2 -1.5 4 3"/);
    expect(toSvg(alone)).not.toContain('FILLER');
  });

  it('escapes the title', () => {
    expect(toSvg(drawing, '<script>"&\u0000')).toContain('<title>&lt;script&gt;&quot;&amp;</title>');
  });
});

// Debian's python3-ezdxf, where it is installed, audits the files and measures them on its own.
const python = '/usr/bin/python3';
const hasAuditor = spawnSync(python, ['-c', 'import ezdxf']).status === 0;

describe.runIf(hasAuditor)('an independent DXF auditor', () => {
  it.each(['polyline', 'spline'] as const)('finds no error in a %s and reads the same area', (curve) => {
    const folder = mkdtempSync(join(tmpdir(), 'lumenfront-draw-'));
    try {
      const outlines = [slot(1.2, 0.12, 0.4), deltoid(0.9, 0.43, 1.2)];
      for (const outline of outlines) {
        const drawing: Drawing = prepareDrawing({ outline: outline.sample, joint });
        const file = join(folder, 'channel.dxf');
        writeFileSync(file, toDxf(drawing, curve));
        const script = `
import sys, ezdxf
from ezdxf.math import BSpline
document = ezdxf.readfile(sys.argv[1])
entity = document.modelspace().query('*[layer=="CHANNEL"]')[0]
points = list(entity.construction_tool().approximate(20000)) if entity.dxftype() == 'SPLINE' else [(p[0], p[1]) for p in entity.get_points()]
area = sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(points, points[1:] + points[:1])) / 2
print(len(document.audit().errors), document.units, area)`;
        const [errors, units, area] = execFileSync(python, ['-c', script, file], { encoding: 'utf8' })
          .split(' ')
          .map(Number);
        expect(errors).toBe(0);
        expect(units).toBe(4);
        expect(Math.abs(area! / outline.area - 1)).toBeLessThan(PROMISE);
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
