/// <reference lib="dom" />
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { browserPath, noteMissingBrowser, openBrowser } from '../../../../test/fixtures/browser.js';
import { TEST_OUTLINES } from '../../../../test/fixtures/outlines.js';
import { teeShapeOf } from '../../../../test/fixtures/tee-shape.js';
import { type ReportDesign, type ReportRequest, reportPage } from './index.js';

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
    parameters: { width: { value: 1.234567 + i, unit: 'mm' }, turn: { value: 12, unit: 'deg' } },
    cases: {
      'pull-off': { peak, at: [0, 1.6], least: -90.1 },
      service: { peak: 0.8 * peak, at: [0.3, 1.1], least: 3 },
    },
    wall: 0.15,
    minEdgeRadius: 0.152,
    outline,
    edge: { caseName: 'pull-off', hoop: outline.map(([a, b]) => 100 * (b - 1) - 20 * Math.abs(a)) },
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

const request: ReportRequest = {
  title: 'Pull-off joint, 2 mm overlaminates',
  brief: [
    ['joint', 'tee, bend radius 5 mm, clamped ends'],
    ['loads', 'pull 100 N/mm, cure -155 K'],
  ],
  briefText: 'title: Pull-off joint, 2 mm overlaminates\n',
  shape: teeShapeOf(),
  designs: Array.from({ length: 60 }, (_, i) => design(i)),
  reference: { area: 0.196, conductance: 0.0015, peak: 206.4 },
  allow: 120,
  picked: 30,
  firstFailure: { place: 'bend', caseName: 'pull-off', loadFactor: 0.87, at: [0.53, 2.76] },
  validation: ['Fast and meshed peaks differ by at most 0.31 % in 12 designs.'],
  cautions: ['The edge peak says nothing of the bend.'],
  search: [
    ['seed', '1'],
    ['evaluations', '20000'],
    ['stopped', 'front stalled'],
  ],
  versions: { lumenfront: '0.1.0', node: '20.20.0' },
};

const hostile = `</script><script>document.title='taken'</script><img src=x onerror="document.title='taken'">"'&$& \u2028<!--`;
const hostileRequest: ReportRequest = {
  ...request,
  title: hostile,
  brief: [[hostile, hostile]],
  briefText: hostile,
  designs: [
    {
      ...design(1),
      family: hostile,
      parameters: { [hostile]: { value: 1, unit: hostile } },
      cases: { [hostile]: { peak: 1, at: [0, 1], least: 0 } },
      edge: { ...design(1).edge!, caseName: hostile },
      tables: [{ heading: hostile, columns: [hostile], rows: [[hostile]], note: hostile }],
    },
  ],
  picked: 0,
  firstFailure: { ...request.firstFailure!, place: hostile, caseName: hostile },
  validation: [hostile],
  cautions: [hostile],
  search: [[hostile, hostile]],
  versions: { [hostile]: hostile },
};

const pages: Record<string, ReportRequest> = {
  'of 60 designs': request,
  'of one design': { ...request, designs: [design(3)], picked: 0 },
  'of no design': { ...request, designs: [], picked: 0 },
  'of a plate': (({ shape: _, firstFailure: __, ...plate }) => plate)(request),
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

  it('holds only its own two scripts whatever the brief says', async () => {
    const html = await reportPage(hostileRequest);
    expect(html.match(/<script/g)).toHaveLength(2);
    expect(html.match(/<\/script/g)).toHaveLength(2);
    expect(html).not.toMatch(/<img|<!--/);
  });
});

noteMissingBrowser();

describe.runIf(browserPath)('a report in a browser', () => {
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
    await tab.waitForSelector('#front svg');
    return { page: tab, complaints };
  }

  /** Where a design stands on the screen; its neighbours may overlap it. */
  async function centre(page: Page, index: number): Promise<[number, number]> {
    const box = (await page.locator('[role=radio]').nth(index).boundingBox())!;
    return [box.x + box.width / 2, box.y + box.height / 2];
  }

  it('shows the picked design, and another one after a click', async () => {
    const { page, complaints } = await open(request);
    const panel = page.locator('#design');
    expect(await panel.textContent()).toContain('3.800 mm²');
    const before = await panel.innerHTML();
    const [x, y] = await centre(page, 45);
    await page.mouse.click(x, y);
    expect(await panel.innerHTML()).not.toBe(before);
    expect(await panel.textContent()).toContain('5.600 mm²');
    expect(await panel.textContent()).toMatch(/conductance0\.09200 mm⁴.*flow against reference61\.3 times/);
    expect(await panel.textContent()).toContain('Strength');
    expect(await page.locator('[role=radio][aria-checked=true]').count()).toBe(1);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('names a design under the pointer', async () => {
    const { page } = await open(request);
    const [x, y] = await centre(page, 10);
    await page.mouse.move(x, y + 3);
    expect(await page.locator('.tip').textContent()).toBe('spline, 1.40 mm², 64.0 MPa');
    expect(await page.locator('.tip').isVisible()).toBe(true);
    await page.close();
  });

  it('is driven by the keyboard', async () => {
    const { page } = await open(request);
    await page.locator('[role=radio][tabindex="0"]').focus();
    await page.keyboard.press('ArrowRight');
    expect(await page.locator('#design').textContent()).toContain('3.920 mm²');
    await page.keyboard.press('End');
    expect(await page.locator('#design').textContent()).toContain('7.280 mm²');
    await page.keyboard.press('ArrowRight');
    expect(await page.locator('#design').textContent()).toContain('0.2000 mm²');
    expect(await page.evaluate(() => document.activeElement!.getAttribute('aria-label'))).toContain('0.200 mm²');
    await page.close();
  });

  it('chooses from the table as well', async () => {
    const { page } = await open(request);
    await page.locator('button[data-design="7"]').click();
    expect(await page.locator('#design').textContent()).toContain('1.040 mm²');
    expect(await page.locator('button[aria-pressed=true]').textContent()).toBe('show 8');
    await page.close();
  });

  describe.each(Object.keys(pages))('%s', (name) => {
    it.each([1280, 390])('is %i px wide without overflow or complaint', async (width) => {
      const { page, complaints } = await open(pages[name]!, width);
      const { content, frame } = await page.evaluate(() => ({
        content: document.documentElement.scrollWidth,
        frame: document.documentElement.clientWidth,
      }));
      expect(content).toBe(frame);
      expect(complaints).toEqual([]);
      expect(await page.title()).not.toBe('taken');
      await page.close();
    });

    it('has texts of contrast 4.5 or more (WCAG 2.2, 1.4.3 AA)', async () => {
      const { page } = await open(pages[name]!);
      const poor = await page.evaluate(() => {
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
      expect(poor).toEqual([]);
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
