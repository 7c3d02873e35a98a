/// <reference lib="dom" />
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { MeshedField } from '@lumenfront/core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { browserPath, noteMissingBrowser, openBrowser } from '../../../../test/fixtures/browser.js';
import { TEST_OUTLINES } from '../../../../test/fixtures/outlines.js';
import { teeShapeOf } from '../../../../test/fixtures/tee-shape.js';
import { type Drawing, toCsv, toDxf, toSvg } from '../draw/index.js';
import { lightPage, type ReportDesign, type ReportRequest, readPage, reportPage, unpackBytes } from './index.js';

const families = ['ellipse', 'teardrop', 'spline', 'inset'];

function design(i: number): ReportDesign {
  const { x, y } = TEST_OUTLINES[i % TEST_OUTLINES.length]!.sample(120);
  const outline = Array.from({ length: 120 }, (_, j) => [x[j]!, y[j]!] as const);
  const peak = 60 + 0.04 * i * i;
  return {
    family: families[(i * 7) % 4]!,
    area: 0.2 + 0.12 * i,
    conductance: 0.002 * (1 + i),
    peak,
    parameters: { width: 1.2345678912345 + i, turn: 12 },
    cases: {
      'pull-off': { peak, at: [0, 1.6], least: -90.1 },
      service: { peak: 0.8 * peak, at: [0.3, 1.1], least: 3 },
    },
    wall: 0.15,
    minEdgeRadius: 0.152,
    outline,
    edge: {
      worstCase: 'pull-off',
      hoop: {
        'pull-off': outline.map(([a, b]) => 100 * (b - 1) - 20 * Math.abs(a)),
        service: outline.map(([a, b]) => 80 * (b - 1) - 16 * Math.abs(a)),
      },
    },
    strength: {
      ...{ retained: 0.5, loadFactor: 1.8 - 0.02 * i, worstCase: 'pull-off', startsAt: 'bend' },
      cases: { 'pull-off': { place: 'bend', loadFactor: 1.8 - 0.02 * i, at: [0.53, 2.76] } },
    },
    files: {
      vertices: outline.map(([a, b]) => [Number(a.toFixed(6)), Number(b.toFixed(6))] as const),
      // Three points a curve.
      curves: outline
        .slice(0, 3 * Math.floor(outline.length / 3))
        .map(([a, b]) => [Number(a.toFixed(6)), Number(b.toFixed(6))] as const),
      ...{ area: '0.200000', perimeter: '4.000000', chordError: '0.000900' },
    },
    tables: [
      {
        heading: 'Strength',
        columns: ['case', 'load factor', 'first failure'],
        rows: [['pull-off', 0.87, 'bend']],
        note: 'Points within 0.1 mm of the cusps are left out.',
      },
    ],
  };
}

/** 20 by 10 cells over the filler, half of them empty. */
const cellsOf = (share: number) =>
  Object.fromEntries(
    ['pull-off', 'service'].map((name) => [
      name,
      Float32Array.from({ length: 200 }, (_, i) => (i % 2 ? share * i : Number.NaN)),
    ]),
  );
const field: MeshedField = {
  box: { xMin: -5, xMax: 5, yMin: 0, yMax: 5 },
  ...{ columns: 20, rows: 10 },
  ...{ cases: cellsOf(1), least: cellsOf(-0.2), shear: cellsOf(0.6) },
};

const request: ReportRequest = {
  title: 'Pull-off joint, 2 mm overlaminates',
  brief: [
    ['joint', 'tee, bend radius 5 mm, clamped ends'],
    ['loads', 'pull 100 N/mm, cure -155 K'],
  ],
  briefText: 'title: Pull-off joint, 2 mm overlaminates\n',
  shape: teeShapeOf(),
  designs: Array.from({ length: 60 }, (_, i) => ({ ...design(i), ...(i === 30 ? { field } : {}) })),
  reference: { ...design(59), area: 0.196, conductance: 0.0015, peak: 206.4 },
  families: { inset: [{ area: 3, peak: 150 }] },
  without: field,
  runs: ['ellipse, descent: budget spent (12 times)'],
  answer: ['Largest channel within the allowed 120 MPa: design 31.'],
  allow: 120,
  picked: 30,
  validation: ['Fast and meshed peaks differ by at most 0.31 % in 12 designs.'],
  cautions: ['The edge peak says nothing of the bend.'],
  search: [
    ['seed', '1'],
    ['evaluations', '20000'],
  ],
  versions: { lumenfront: '0.1.0', node: '20.20.0' },
};

const hostile = `</script><script>document.title='taken'</script><img src=x onerror="document.title='taken'">"'&$& \u2028<!--`;
const hostileRequest: ReportRequest = {
  ...request,
  title: hostile,
  brief: [[hostile, hostile]],
  briefText: hostile,
  units: { [hostile]: hostile },
  designs: [
    {
      ...design(1),
      family: hostile,
      parameters: { [hostile]: 1 },
      cases: { [hostile]: { peak: 1, at: [0, 1], least: 0 } },
      edge: { worstCase: hostile, hoop: { [hostile]: design(1).edge!.hoop.service! } },
      strength: {
        ...{ retained: 0.5, loadFactor: 0.9, worstCase: hostile, startsAt: hostile },
        cases: { [hostile]: { place: hostile, loadFactor: 0.9, at: [0, 1] } },
      },
      tables: [{ heading: hostile, columns: [hostile], rows: [[hostile]], note: hostile }],
    },
  ],
  picked: 0,
  answer: [hostile],
  runs: [hostile],
  families: { [hostile]: [{ area: 1, peak: 2 }] },
  validation: [hostile],
  cautions: [hostile],
  search: [[hostile, hostile]],
  versions: { [hostile]: hostile },
};

const pages: Record<string, ReportRequest> = {
  'of 60 designs': request,
  'of one design': { ...request, designs: [design(3)], picked: 0 },
  'of no design': { ...request, designs: [], picked: 0 },
  'of a pick': { ...request, kind: 'pick', designs: [design(3), design(2)], picked: 0 },
  'of a plate': (({ shape: _, without: __, ...plate }) => plate)(request),
  'of a hostile brief': hostileRequest,
};

describe('a report', () => {
  it('is the same twice and fetches nothing', async () => {
    const html = await reportPage(request);
    expect((await reportPage(request)) === html).toBe(true);
    expect(html).not.toMatch(/(src|href)\s*=|@import|url\((?!#)/);
  });

  it('states the caution, validation, seed and versions', async () => {
    const html = await reportPage(request);
    for (const text of ['Results are preliminary', ...request.validation, 'seed', 'lumenfront 0.1.0'])
      expect(html).toContain(text);
  });

  it('leaves designs out where it would be too large, but none that was solved or chosen', async () => {
    const numbered = { ...request, designs: request.designs.map((one, i) => ({ ...one, number: i + 1 })) };
    const [whole, { text, shown }] = [await reportPage(numbered), await lightPage(numbered, 50_000)];
    const data = await readPage(/id="report-data">(.*?)</.exec(text)![1]!, unpackBytes);
    expect(text.length).toBeLessThan(whole.length);
    expect(text).toContain(`${data.designs.length} of 60 channel designs`);
    expect(shown.designs).toHaveLength(data.designs.length);
    const names = data.designs.map(({ name }) => name);
    expect([names[0], names[data.picked], names.at(-1)]).toEqual(['design 1', 'design 31', 'design 60']);
    expect(data.designs[data.picked]!.field).toBeDefined();
    expect((await lightPage(numbered)).text).toBe(whole);
    const namesOf = async (wanted: readonly number[]) =>
      (await lightPage({ ...numbered, wanted }, 50_000)).shown.designs.map(({ number }) => number);
    expect(await namesOf([15])).toContain(15);
    // All of them are wanted: it is as large as it is.
    expect(await namesOf(numbered.designs.map(({ number }) => number))).toHaveLength(60);
  });

  it('holds only its own two scripts whatever the brief says', async () => {
    const html = await reportPage(hostileRequest);
    expect(html.match(/<script/g)).toHaveLength(2);
    expect(html.match(/<\/script/g)).toHaveLength(2);
    expect(html).not.toMatch(/<img|<!--/);
  });
});

noteMissingBrowser();

describe.runIf(browserPath)('a report in a browser', { tags: 'long' }, () => {
  let browser: Browser;
  const folder = mkdtempSync(join(tmpdir(), 'lumenfront-report-'));
  beforeAll(async () => {
    browser = await openBrowser();
  });
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true });
  });

  /** Opens the report from a file, as a user does, and collects every complaint of the browser. */
  async function open(page: ReportRequest, width = 1280): Promise<{ page: Page; complaints: string[] }> {
    const file = join(folder, 'report.html');
    writeFileSync(file, await reportPage(page));
    const tab = await browser.newPage({ viewport: { width, height: 900 } });
    const complaints: string[] = [];
    tab.on('console', (message) => complaints.push(message.text()));
    tab.on('pageerror', (error) => complaints.push(error.message));
    tab.on('request', (call) => {
      if (call.url() !== pathToFileURL(file).href) complaints.push(call.url());
    });
    await tab.goto(pathToFileURL(file).href);
    if (page.kind !== 'pick' && page.designs.length > 0) await tab.waitForSelector('#front svg');
    return { page: tab, complaints };
  }

  /** Where a design stands on the screen; its neighbours may overlap it. */
  async function centre(page: Page, index: number): Promise<[number, number]> {
    const box = (await page.locator('[role=radio]').nth(index).boundingBox())!;
    return [box.x + box.width / 2, box.y + box.height / 2];
  }

  /** Texts of a contrast below 4.5 (WCAG 2.2, 1.4.3 AA). */
  const poorContrast = (page: Page) =>
    page.evaluate(() => {
      const channels = (colour: string) => colour.match(/[\d.]+/g)!.map(Number);
      const luminance = (colour: string) => {
        const [r, g, b] = channels(colour).map((c) =>
          c / 255 <= 0.04045 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4,
        );
        return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
      };
      const background = (element: Element | null): string => {
        if (element === null) return 'rgb(255, 255, 255)';
        const colour = getComputedStyle(element).backgroundColor;
        return channels(colour)[3] === 0 ? background(element.parentElement) : colour;
      };
      const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      const found: string[] = [];
      for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
        const element = node.parentElement!;
        if (node.textContent!.trim() === '' || element.closest('script, noscript, style')) continue;
        const style = getComputedStyle(element);
        const svg = element.closest('svg') !== null;
        const [a, b] = [luminance(svg ? style.fill : style.color), luminance(background(element))];
        const contrast = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
        if (!(contrast >= 4.5)) found.push(`${contrast.toFixed(2)}: ${node.textContent}`);
      }
      return found;
    });

  it('shows the picked design, and another one after a click', async () => {
    const { page, complaints } = await open(request);
    const panel = page.locator('#design');
    expect(await page.locator('#design-heading').textContent()).toBe('Design 31, spline');
    expect(await panel.textContent()).toContain('3.800');
    const before = await panel.innerHTML();
    const [x, y] = await centre(page, 45);
    await page.mouse.click(x, y);
    expect(await panel.innerHTML()).not.toBe(before);
    expect(await panel.textContent()).toContain('5.600');
    expect(await panel.textContent()).toMatch(/flow, mm⁴0\.092000\.001500×\s61\.3/);
    expect(await panel.textContent()).toContain('strength retained');
    expect(await page.locator('[role=radio][aria-checked=true]').count()).toBe(1);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('names a design under the pointer', async () => {
    const { page } = await open(request);
    const [x, y] = await centre(page, 10);
    await page.mouse.move(x, y + 3);
    expect(await page.locator('.tip').textContent()).toBe('design 11: spline, 1.40 mm², 64.0 MPa');
    expect(await page.locator('.tip').isVisible()).toBe(true);
    await page.close();
  });

  it('is driven by the keyboard', async () => {
    const { page } = await open(request);
    await page.locator('[role=radio][tabindex="0"]').focus();
    await page.keyboard.press('ArrowRight');
    expect(await page.locator('#design').textContent()).toContain('3.920');
    await page.keyboard.press('End');
    expect(await page.locator('#design').textContent()).toContain('7.280');
    await page.keyboard.press('ArrowRight');
    expect(await page.locator('#design').textContent()).toContain('0.2000');
    expect(await page.evaluate(() => document.activeElement!.getAttribute('aria-label'))).toContain('0.200 mm²');
    await page.close();
  });

  it('chooses from the table as well', async () => {
    const { page } = await open(request);
    await page.locator('button[data-design="7"]').click();
    expect(await page.locator('#design').textContent()).toContain('1.040');
    expect(await page.locator('button[aria-pressed=true]').textContent()).toBe('show 8');
    // And shows what was chosen, however far down the table stands.
    await expect(
      page.locator('#design-heading').evaluate((heading) => heading.getBoundingClientRect().top),
    ).resolves.toBeLessThan(100);
    expect(await page.locator('#joint-figures').textContent()).toContain('design 8');
    await page.close();
  });

  it('shows the chosen channel in the joint, in the case that is switched to, beside another one', async () => {
    const { page, complaints } = await open(request);
    const figures = page.locator('#joint-figures');
    expect(await figures.textContent()).toMatch(
      /design 31.*peak 96\.0 MPa.*failure starts: bend, load factor 1\.20.*dashed: reference.*reference/,
    );
    await page.locator('input[name=case][value=service]').check();
    expect(await figures.textContent()).toContain('peak 76.8 MPa');
    await page.locator('#beside').selectOption('design 12');
    expect(await figures.textContent()).toMatch(/design 31.*dashed: design 12.*design 12/);
    expect(await page.locator('#design').textContent()).toContain('design 12');
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('points at the peak', async () => {
    const { page } = await open(request);
    const [tip, edge] = (await page
      .locator('#joint-figures svg')
      .first()
      .evaluate((svg) => {
        const [x, y] = svg.querySelector('.peak')!.getAttribute('data-tip')!.split(' ').map(Number) as [number, number];
        const strokes = [...svg.querySelectorAll('.edge')].map((stroke) =>
          stroke.getAttribute('d')!.slice(1).split(/[L ]/).map(Number),
        );
        return [[x, y], strokes.map(([a, b]) => [a!, b!])];
      })) as [number[], number[][]];
    // The sample's peak is told at (0, 1.6), 4 px before the tip of the arrow along the normal.
    const scale =
      (await page
        .locator('#joint-figures svg')
        .first()
        .evaluate((svg) => svg.clientWidth)) / 11;
    const place = [scale * 5.5, scale * (5.5 - 1.6)];
    expect(Math.hypot(tip[0]! - place[0]!, tip[1]! - place[1]!)).toBeCloseTo(4, 0);
    expect(edge.length).toBe(120);
    await page.close();
  });

  it('keeps one colour range, with zero and the allowed peak marked', async () => {
    const { page } = await open(request);
    const bar = () => page.locator('.marks').textContent();
    const before = await bar();
    expect(before).toMatch(/0allowed 120$/);
    await page.locator('button[data-design="2"]').click();
    expect(await bar()).toBe(before);
    await page.close();
  });

  it('paints the field of the mesh with and without channel, and says where it has none', async () => {
    const { page } = await open(request);
    const figures = page.locator('#field-figures');
    expect(await figures.locator('canvas').count()).toBe(2);
    const inked = await figures
      .locator('canvas')
      .first()
      .evaluate((element) => {
        const canvas = element as HTMLCanvasElement;
        const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
        return data.some((value, i) => i % 4 === 3 && value > 0);
      });
    expect(inked).toBe(true);
    const picture = () =>
      figures
        .locator('canvas')
        .first()
        .evaluate((element) => (element as HTMLCanvasElement).toDataURL());
    const pictures = [await picture()];
    for (const stress of ['least', 'shear']) {
      await page.locator('#field-stress').selectOption(stress);
      pictures.push(await picture());
    }
    expect(new Set(pictures).size).toBe(3);
    expect(await figures.locator('figcaption').first().textContent()).toContain('largest shear stress in');
    await page.locator('button[data-design="2"]').click();
    expect(await figures.locator('canvas').count()).toBe(1);
    expect(await figures.textContent()).toContain('around design 3 was not solved; that of design 31 was');
    await page.close();
  });

  it('saves the outline as the command draws it, and the figures', async () => {
    const { page } = await open(request);
    const saved = async (kind: string) => {
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.locator(`[data-save=${kind}]`).click(),
      ]);
      return { name: download.suggestedFilename(), text: readFileSync(await download.path(), 'utf8') };
    };
    const { vertices: points, curves, area, perimeter, chordError } = request.designs[30]!.files!;
    const vertices = Float64Array.from(points.flat());
    const drawing: Drawing = {
      vertices,
      curves: Float64Array.from(curves.flat()),
      shape: request.shape!,
      ...{ area: Number(area), perimeter: Number(perimeter), chordError: Number(chordError) },
    };
    expect(await saved('CSV')).toEqual({ name: 'design-31.csv', text: toCsv(drawing) });
    expect((await saved('DXF')).text).toBe(toDxf(drawing, { title: request.title }));
    expect((await saved('SVG')).text).toBe(toSvg(drawing, { title: request.title }));
    const figures = JSON.parse((await saved('JSON')).text);
    expect(figures).toMatchObject({
      family: 'spline',
      parameters: { width: 31.2345678912345, turn: 12 },
      peak: 96,
      strength: { loadFactor: 1.2 },
    });
    await page.close();
  });

  describe.each(Object.keys(pages))('%s', (name) => {
    it.each([1280, 390])('is %i px wide without overflow, clipping or complaint, light and dark', async (width) => {
      const { page, complaints } = await open(pages[name]!, width);
      const { content, frame } = await page.evaluate(() => ({
        content: document.documentElement.scrollWidth,
        frame: document.documentElement.clientWidth,
      }));
      expect(content).toBe(frame);
      // Nothing scrolls sideways but the brief as written, and no picture or text of a picture leaves its section.
      const clipped = await page.evaluate(() =>
        [...document.querySelectorAll('main .scroll, main table, main figure, main svg text, main button')]
          .filter((element) => {
            const section = element.closest('section')!.getBoundingClientRect();
            const { left, right, width } = element.getBoundingClientRect();
            return (
              width > 0 &&
              (left < section.left - 1 ||
                right > section.right + 1 ||
                (element.matches('.scroll') && element.scrollWidth > element.clientWidth))
            );
          })
          .map((element) => element.outerHTML.slice(0, 80)),
      );
      expect(clipped).toEqual([]);
      expect(complaints).toEqual([]);
      expect(await page.title()).not.toBe('taken');
      for (const colorScheme of width > 1000 ? (['light', 'dark'] as const) : []) {
        await page.emulateMedia({ colorScheme });
        expect(await poorContrast(page), colorScheme).toEqual([]);
      }
      await page.close();
    });
  });

  it('redraws the front when the window narrows', async () => {
    const { page } = await open(request);
    const width = () => page.evaluate(() => document.querySelector('#front svg')!.clientWidth);
    const wide = await width();
    await page.setViewportSize({ width: 390, height: 900 });
    await expect.poll(width).toBeLessThan(wide);
    await page.close();
  });
});
