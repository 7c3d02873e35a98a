/// <reference lib="dom" />
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { browserPath, noteMissingBrowser, openBrowser } from '../../../../test/fixtures/browser.js';
import { TEST_OUTLINES } from '../../../../test/fixtures/outlines.js';
import { teeShapeOf } from '../../../../test/fixtures/tee-shape.js';
import { textWidth } from './advance-widths.js';
import {
  contactSheet,
  frontPicture,
  type JointPictureRequest,
  jointPicture,
  type Point,
  type SeriesPictureRequest,
  seriesPicture,
} from './index.js';
import { wrap } from './render.js';
import { fit, shapePath } from './section.js';
import { shades, stressColour, stressScale, stressTicks } from './shade.js';

const shape = teeShapeOf();

const points = (i: number, count = 120): Point[] => {
  const { x, y } = TEST_OUTLINES[i % TEST_OUTLINES.length]!.sample(count);
  return Array.from({ length: count }, (_, j) => [x[j]!, y[j]!]);
};

const families = ['ellipse', 'teardrop', 'spline', 'inset'];
const designs = Array.from({ length: 60 }, (_, i) => ({
  family: families[(i * 7) % 4]!,
  area: 0.2 + 0.12 * i,
  peak: 60 + 0.04 * i * i,
  outline: points(i),
}));
const reference = { area: 0.196, peak: 206.4 };
const longTitle = `${'A joint whose title says everything about it, '.repeat(8)}${'W'.repeat(200)}`;

/** Hoop stress of a made-up edge, highest at the top. */
const edgeOf = (outline: readonly Point[]) => {
  const top = outline.reduce((a, b) => (b[1] > a[1] ? b : a));
  return {
    caseName: 'pull-off',
    hoop: outline.map(([x, y]) => 100 * (y - 1) - 20 * Math.abs(x)),
    peak: { stress: 148.6, at: top },
  };
};

const stressed: JointPictureRequest = {
  title: 'Pull-off joint',
  shape,
  outline: points(3),
  edge: edgeOf(points(3)),
  firstFailure: { place: 'bend', caseName: 'service', loadFactor: 0.87, at: [0.53, 2.76] },
};

/** Nine series of five values with gaps. */
const series: SeriesPictureRequest = {
  title: longTitle,
  x: { title: 'host.bendRadius, mm' },
  y: { title: 'channel area, mm²' },
  series: Array.from({ length: 9 }, (_, i) => ({
    label: `layup [45,-45,0,90,90,0,-45,45], ${longTitle} ${i}`,
    points: [4, 5, 6, 7, 8].slice(i % 3).map((x) => ({ x, y: 0.2 * x + 0.1 * i })),
  })),
  joined: true,
  missing: { label: 'no channel: the case failed', places: [4, 5] },
};
const layups = Array.from({ length: 30 }, (_, i) => `[45,-45,0,90,90,0,-45,${i}]`);

const pictures: Record<string, () => Promise<string>> = {
  'front of 60 designs': () =>
    frontPicture({ title: 'Pull-off joint', designs, reference, allow: 120, picked: designs[30]! }),
  'front of one design': () => frontPicture({ title: longTitle, designs: designs.slice(0, 1) }),
  'front of no design': () => frontPicture({ title: '', designs: [], allow: 48 }),
  'front of equal designs': () => frontPicture({ title: 'Twice', designs: [designs[0]!, designs[0]!] }),
  'joint with stress': () => jointPicture(stressed),
  'joint without stress': () => jointPicture({ title: longTitle, shape, outline: points(0) }),
  'joint that fails at the peak': () =>
    jointPicture({
      ...stressed,
      outline: points(0),
      edge: { ...edgeOf(points(0)), caseName: longTitle },
      firstFailure: { place: longTitle, caseName: longTitle, loadFactor: 1, at: edgeOf(points(0)).peak.at },
    }),
  'joint with a tall web': () => jointPicture({ ...stressed, shape: teeShapeOf({ webHeight: 120, skinHalfSpan: 25 }) }),
  'sheet of 60 designs': () => contactSheet({ title: 'Pull-off joint', designs, shape }),
  'sheet of one design': () => contactSheet({ title: longTitle, designs: designs.slice(0, 1), shape }),
  'sheet of a plate': () => contactSheet({ title: 'Plate', designs: designs.slice(0, 7) }),
  'series over numbers': () => seriesPicture(series),
  'series over words': () =>
    seriesPicture({
      ...series,
      x: { title: 'host.overlaminate.layup, deg', words: layups },
      series: [{ points: layups.map((x, i) => ({ x, y: i })) }],
      joined: false,
      missing: { label: 'failed', places: [layups[7]!] },
    }),
  'series of large values': () =>
    seriesPicture({
      ...series,
      y: { title: 'filler modulus, MPa' },
      series: [{ points: [4, 5].map((x) => ({ x, y: 4e4 * x })) }],
    }),
  'series of one value': () => seriesPicture({ ...series, series: [{ points: [{ x: -3, y: 1 }] }] }),
  'series of nothing': () => seriesPicture({ ...series, series: [], missing: { label: 'failed', places: [4, 5] } }),
  'series of nothing at all': () =>
    seriesPicture({ title: 'Nothing', x: series.x, y: series.y, series: [], joined: true }),
  'sheet of no design': () => contactSheet({ title: 'Nothing', designs: [], shape }),
};

describe('a front', () => {
  it('shows every design, the reference, the pick and their keys', async () => {
    const svg = await pictures['front of 60 designs']!();
    for (const label of [...families, 'reference channel', 'picked design', 'allowed peak, 120 MPa'])
      expect(svg).toContain(`>${label}<`);
    expect(svg).toContain('channel area, mm²');
    expect(svg).toContain('peak edge stress, worst case, MPa');
  });

  it('says so when it is empty', async () => {
    expect(await pictures['front of no design']!()).toContain('no design meets the brief');
    expect(await pictures['sheet of no design']!()).toContain('no design meets the brief');
  });
});

describe('series', () => {
  it('tell seven apart and count the others', async () => {
    const svg = await pictures['series over numbers']!();
    expect(svg).toContain('>2 more<');
    expect(svg).toContain('>no channel: the case failed<');
  });

  it('say so when there is no value', async () => {
    expect(await pictures['series of nothing']!()).toContain('>no values<');
    expect(await pictures['series of nothing at all']!()).toContain('>no values<');
  });
});

describe('every picture', () => {
  it.each(Object.keys(pictures))('%s is the same twice and holds no number that is none', async (name) => {
    const svg = await pictures[name]!();
    // Not `toBe`: a difference of two long lines says nothing.
    expect((await pictures[name]!()) === svg).toBe(true);
    expect(svg).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('escapes what came from the brief', async () => {
    const title = `<script>"'&$&</script>`;
    const svg = await Promise.all([
      frontPicture({ title, designs: [{ family: title, area: 1, peak: 1 }] }),
      jointPicture({ ...stressed, title, edge: { ...stressed.edge!, caseName: title } }),
      contactSheet({ title, designs: [{ ...designs[0]!, family: title }] }),
      seriesPicture({
        ...series,
        title,
        x: { title, words: [title] },
        series: [{ label: title, points: [{ x: title, y: 1 }] }],
        missing: { label: title, places: [title] },
      }),
    ]);
    for (const picture of svg) expect(picture).not.toContain('<script');
  });
});

describe('lines of text', () => {
  it('are measured as in fonts that set the same text widely or narrowly', () => {
    // Helvetica's advance widths, which Nimbus Sans keeps (Adobe's font metrics; from memory): J 500, v 500.
    expect(textWidth('JJ', 12)).toBeCloseTo(12, 6);
    // DejaVu Sans sets digits 0.636 em wide, and a half wider than that when bold by a tenth.
    expect(textWidth('0', 1000)).toBeCloseTo(637, 6);
    expect(textWidth('0', 1000, true)).toBeCloseTo(696, 6);
    expect(textWidth('É', 12)).toBe(textWidth('E', 12));
    expect(textWidth('漢', 10)).toBe(11);
  });

  it('fill their width and no more, and say what is cut', () => {
    const words = 'Widths of WWWWWWWWWWWWWWWWWWWWWWWWWWWW and of iiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiiii';
    const lines = wrap(words, 120, 9);
    expect(lines.join('').replaceAll(' ', '')).toBe(words.replaceAll(' ', ''));
    for (const line of lines) expect(textWidth(line, 12)).toBeLessThanOrEqual(120);
    expect(wrap(words, 120, 2)).toEqual([lines[0], `${lines[1]!.slice(0, -1)}…`]);
    expect(wrap('i'.repeat(35), 120, 9)).toHaveLength(1);
    expect(wrap('i'.repeat(35), 120, 9, { bold: true })).toHaveLength(2);
    expect(wrap('', 120, 2)).toEqual(['']);
  });
});

describe('the section', () => {
  it('has one scale in x and y', () => {
    const projection = fit(shape.whole, 852, 320);
    expect(projection.x(1) - projection.x(0)).toBeCloseTo(projection.y(0) - projection.y(1), 12);
    expect(Math.max(projection.width / 852, projection.height / 320)).toBeCloseTo(1, 12);
  });

  it('joins filler and first layer along the same arc', () => {
    const projection = fit({ xMin: 0, xMax: 100, yMin: 0, yMax: 100 }, 100, 100);
    expect(shapePath(projection, shape.room)).toBe('M-5 100L5 100A5 5 0 0 1 0 95A5 5 0 0 1 -5 100Z');
    expect(shapePath(projection, shape.layers[0]!.path)).toBe(
      'M0 70L0 95A5 5 0 0 0 5 100L25 100L25 99.75L5 99.75A4.75 4.75 0 0 1 0.25 95L0.25 70Z',
    );
  });
});

/** Relative luminance of a colour `#rrggbb` (WCAG 2.2). */
function luminance(colour: string): number {
  const [r, g, b] = [1, 3, 5].map((i) => {
    const c = Number.parseInt(colour.slice(i, i + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}

describe('shades', () => {
  it('darken steadily with stress, so that a grey print reads the same', () => {
    const values = Array.from({ length: 101 }, (_, i) => luminance(stressColour([0, 100], i)));
    for (let i = 1; i < values.length; i++) expect(values[i]).toBeLessThan(values[i - 1]!);
  });

  it('give every size of angle one shade and one legend entry', () => {
    const shade = shades(shape.layers);
    expect(shade.legend.map(([label]) => label)).toEqual([
      'plies at 0°',
      'plies at ±45°',
      'plies at 90°',
      'quasi-isotropic, smeared',
    ]);
    expect(new Set(shade.legend.map(([, layer]) => shade(layer))).size).toBe(4);
    expect(shades([{ angle: -30 }]).legend[0]![0]).toBe('plies at -30°');
  });

  it.each([
    [-212, 361],
    [1e-3, 2e-3],
    [90, 90],
    [-5e4, 7e5],
  ])('put three to eight round ticks between %f and %f MPa', (least, most) => {
    const scale = stressScale([least, most]);
    const ticks = stressTicks(scale);
    expect(ticks.length).toBeGreaterThanOrEqual(3);
    expect(ticks.length).toBeLessThanOrEqual(8);
    expect(ticks[0]).toBeGreaterThanOrEqual(scale[0]);
    expect(ticks.at(-1)).toBeLessThanOrEqual(scale[1]);
  });
});

noteMissingBrowser();

describe.runIf(browserPath)('in a browser', { tags: 'long' }, () => {
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    browser = await openBrowser();
    page = await browser.newPage();
  });
  afterAll(() => browser.close());

  it.each(Object.keys(pictures))('%s keeps texts within the picture and apart from one another', async (name) => {
    await page.setContent(`<body style="margin:0">${await pictures[name]!()}</body>`);
    const { width, height, boxes } = await page.evaluate(() => {
      const frame = document.querySelector('svg')!.getBoundingClientRect();
      const texts = [...document.querySelectorAll('svg text')].filter((text) => text.textContent !== '');
      return {
        width: frame.width,
        height: frame.height,
        boxes: texts.map((text) => {
          const { left, right, top, bottom } = text.getBoundingClientRect();
          // Line boxes are a little higher than their letters.
          return { text: text.textContent, left, right, top: top + 2, bottom: bottom - 2 };
        }),
      };
    });
    const outside = boxes.filter((box) => box.left < 0 || box.top < 0 || box.right > width || box.bottom > height);
    expect(outside).toEqual([]);
    const overlapping = boxes.flatMap((a, i) =>
      boxes
        .slice(i + 1)
        .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
        .map((b) => [a.text, b.text]),
    );
    expect(overlapping).toEqual([]);
  });
});
