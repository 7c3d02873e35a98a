import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { IArcEntity, ILwpolylineEntity, ISplineEntity, ITextEntity } from 'dxf-parser';
import { describe, expect, it } from 'vitest';
import {
  csvExtent,
  entitiesOf,
  pathExtent,
  pointsExtent,
  readDxf,
  splineExtent,
} from '../../../../test/fixtures/drawing-readers.js';
import { deltoid, ellipse, slot, TEST_OUTLINES } from '../../../../test/fixtures/outlines.js';
import { teeShapeOf } from '../../../../test/fixtures/tee-shape.js';
import { type Extent, farthestFrom, sampleExtent } from './curve.js';
import { type Drawing, prepareDrawing, toCsv, toDxf, toSvg } from './index.js';

const shape = teeShapeOf();

/** 0.01 %, what every format promises. */
const PROMISE = 1e-4;

function expectExtent(read: Extent, outline: (typeof TEST_OUTLINES)[number]) {
  const { perimeter } = sampleExtent(outline.sample(4096));
  expect(Math.abs(read.area / outline.area - 1)).toBeLessThan(PROMISE);
  expect(Math.abs(read.perimeter / perimeter - 1)).toBeLessThan(PROMISE);
}

describe.each(TEST_OUTLINES)('a drawn $name', (outline) => {
  const drawing = prepareDrawing({ outline: outline.sample, shape });

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
    const [channel] = entitiesOf<ILwpolylineEntity>(toDxf(drawing), 'CHANNEL', 'LWPOLYLINE');
    expect(channel!.shape).toBe(true);
    expectExtent(pointsExtent(channel!.vertices), outline);
  });

  it('has area and perimeter of the design in a DXF spline', () => {
    const [channel] = entitiesOf<ISplineEntity>(toDxf(drawing, { curve: 'spline' }), 'CHANNEL', 'SPLINE');
    expect(channel!.closed).toBe(true);
    expect(channel!.controlPoints).toHaveLength(channel!.knotValues.length - 4);
    expectExtent(splineExtent(channel!), outline);
  });

  it('has area and perimeter of the design in the SVG path', () => {
    expectExtent(pathExtent(toSvg(drawing)), outline);
  });

  it('has area and perimeter of the design in the CSV', () => {
    const csv = toCsv(drawing);
    expect(csv).toMatch(/^x_mm,y_mm\n/);
    expectExtent(csvExtent(csv), outline);
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
  const drawing = prepareDrawing({ outline: deltoid(0.9, 0.43, 1.2).sample, shape });
  const dxf = readDxf(toDxf(drawing));

  it('is in millimetres', () => {
    expect(dxf.header.$INSUNITS).toBe(4);
    expect(dxf.header.$MEASUREMENT).toBe(1);
    expect(toSvg(drawing)).toMatch(/<svg [^>]*width="110mm" height="89\.44mm" viewBox="-5\.5 -5\.5 11 8\.944"/);
    expect(toSvg(drawing)).toContain('printed 10 : 1, units mm');
  });

  it('opens on all of it, with the channel ready to be drawn on', () => {
    const [least, most] = [dxf.header.$EXTMIN, dxf.header.$EXTMAX] as { x: number; y: number }[];
    expect([least!.x, most!.x, most!.y]).toEqual([-40.4, 40.4, 30.4]);
    // Below the skin of 3 mm stands the title block.
    expect(least!.y).toBeLessThan(-3.4);
    expect(dxf.header.$CLAYER).toBe('CHANNEL');
    for (const { vertices } of entitiesOf<ILwpolylineEntity>(toDxf(drawing), 'TITLE', 'LWPOLYLINE'))
      for (const { y } of vertices) expect(y).toBeGreaterThanOrEqual(least!.y);
  });

  it('names its parts, and says scale and units in a title block', () => {
    const texts = (layer: string) =>
      entitiesOf<ITextEntity>(toDxf(drawing, { title: 'Bracket' }), layer, 'TEXT').map(({ text }) => text);
    expect(texts('NAMES')).toEqual(['overlaminate', 'overlaminate', 'skin']);
    expect(texts('TITLE')[0]).toBe('Bracket');
    expect(texts('TITLE')).toContainEqual(
      expect.stringMatching(/^drawn 1 : 1, units mm; polyline, chord error 0\.000\d+ mm$/),
    );
    expect(entitiesOf(toDxf(drawing), 'SKIN', 'LWPOLYLINE')).toHaveLength(1);
  });

  it('gives a die one closed region: the filler with the channel', () => {
    const die = toDxf(drawing, { view: 'die' });
    // Two loops of one solid hatch, both polylines (2), the outer one with bulges.
    expect(die).toMatch(/HATCH\n(?:.*\n)*?2\nSOLID\n70\n1\n71\n0\n91\n2\n92\n\d+\n72\n1\n/);
    expect(readDxf(die).tables.layer.layers).not.toHaveProperty('SKIN');
    const path = /<path id="DIE" d="([^"]*)"[^>]*fill-rule="evenodd"/.exec(toSvg(drawing, { view: 'die' }))![1]!;
    expect(path.match(/Z/g)).toHaveLength(2);
  });

  it('has the layers of channel, filler and bend lines', () => {
    expect(Object.keys(dxf.tables.layer.layers)).toEqual(expect.arrayContaining(['CHANNEL', 'FILLER', 'BEND_LINES']));
  });

  it('encloses the filler by exact arcs', () => {
    const [filler] = entitiesOf<ILwpolylineEntity>(toDxf(drawing), 'FILLER', 'LWPOLYLINE');
    // Corners and, from the definition of a bulge as sagitta over half chord, the segments cut off between chord and arc.
    const chords = pointsExtent(filler!.vertices).area;
    const cut = filler!.vertices.reduce((sum, { x, y, bulge }, i, all) => {
      const next = all[(i + 1) % all.length]!;
      const angle = 4 * Math.atan(bulge ?? 0);
      const radius = Math.hypot(next.x - x, next.y - y) / 2 / Math.sin(Math.abs(angle) / 2 || 1);
      return sum + (radius ** 2 / 2) * (angle - Math.sin(angle));
    }, 0);
    expect(chords + cut).toBeCloseTo(2 * 25 * (1 - Math.PI / 4), 6);
  });

  it('puts bend lines across the overlaminate and on its free surface', () => {
    expect(entitiesOf(toDxf(drawing), 'BEND_LINES', 'LINE')).toHaveLength(4);
    const arcs = entitiesOf<IArcEntity>(toDxf(drawing), 'BEND_LINES', 'ARC');
    expect(arcs.map(({ center, radius }) => [center.x, center.y, radius])).toEqual([
      [5, 5, 3],
      [-5, 5, 3],
    ]);
  });

  it('leaves the joint out where there is none', () => {
    const alone = prepareDrawing({ outline: ellipse(1, 0.5, 0).sample });
    expect(Object.keys(readDxf(toDxf(alone)).tables.layer.layers)).not.toContain('FILLER');
    expect(toSvg(alone)).toMatch(/viewBox="-2 -1.5 4 4.372"/);
    expect(toSvg(alone)).not.toContain('FILLER');
  });

  it('escapes the title', () => {
    expect(toSvg(drawing, { title: '<script>"&\u0000' })).toContain('<title>&lt;script&gt;&quot;&amp;</title>');
  });
});

// Debian's python3-ezdxf, where it is installed, audits the files and measures them on its own.
const python = '/usr/bin/python3';
const hasAuditor = spawnSync(python, ['-c', 'import ezdxf']).status === 0;
const audit = `
import sys, ezdxf
for name in sys.argv[1:]:
    document = ezdxf.readfile(name)
    entity = document.modelspace().query('*[layer=="CHANNEL"]')[0]
    points = list(entity.construction_tool().approximate(20000)) if entity.dxftype() == 'SPLINE' else [(p[0], p[1]) for p in entity.get_points()]
    area = sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(points, points[1:] + points[:1])) / 2
    print(len(document.audit().errors), document.units, area)`;

it.runIf(hasAuditor)('an independent auditor finds no error in a DXF and reads the same area', () => {
  const folder = mkdtempSync(join(tmpdir(), 'lumenfront-draw-'));
  try {
    const outlines = [slot(1.2, 0.12, 0.4), deltoid(0.9, 0.43, 1.2)];
    const drawn = outlines.flatMap((outline) => {
      const drawing: Drawing = prepareDrawing({ outline: outline.sample, shape });
      return ([{ curve: 'polyline' }, { curve: 'spline' }, { curve: 'polyline', view: 'die' }] as const).map(
        (kind) => ({
          area: outline.area,
          dxf: toDxf(drawing, kind),
        }),
      );
    });
    const files = drawn.map(({ dxf }, i) => {
      const file = join(folder, `${i}.dxf`);
      writeFileSync(file, dxf);
      return file;
    });
    const lines = execFileSync(python, ['-c', audit, ...files], { encoding: 'utf8' })
      .trim()
      .split('\n');
    expect(lines).toHaveLength(drawn.length);
    drawn.forEach(({ area }, i) => {
      const [errors, units, read] = lines[i]!.split(' ').map(Number);
      expect([errors, units]).toEqual([0, 4]);
      expect(Math.abs(read! / area - 1)).toBeLessThan(PROMISE);
    });
  } finally {
    rmSync(folder, { recursive: true });
  }
});
