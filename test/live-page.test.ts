import { readFileSync } from 'node:fs';
import {
  channelRoom,
  createChannelReporter,
  type EvaluatedChannel,
  hostOf,
  outlineOf,
  readBrief,
  starterBrief,
} from '@lumenfront/core';
import { liveData, type ReportDesign, reportPage } from 'lumenfront/report';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { browserPath, noteMissingBrowser, openBrowser } from './fixtures/browser.js';
import { preparedTask } from './fixtures/reduced.js';

noteMissingBrowser();
describe.runIf(browserPath !== undefined)('a report that computes', { tags: 'long' }, () => {
  let browser: Browser;
  let page: Page;
  let html: string;
  let judge: (data: Parameters<typeof outlineOf>[0]) => EvaluatedChannel;
  const problems: string[] = [];

  beforeAll(async () => {
    const brief = await readBrief(starterBrief);
    const task = preparedTask(brief);
    const report = createChannelReporter(task);
    judge = (data) => report(outlineOf(data, channelRoom(task)));
    const data = { family: 'ellipse', parameters: { y: 1.8, width: 2, height: 1.2 } };
    const { design, edge, caseHoop } = judge(data);
    const outline = Array.from(edge.nodes.x, (x, j) => [x, edge.nodes.y[j]!] as const);
    const hoop = Object.fromEntries(Object.entries(caseHoop).map(([name, values]) => [name, Array.from(values)]));
    const { shape } = hostOf(brief.joint);
    const one: ReportDesign = {
      ...{ family: 'ellipse', parameters: data.parameters, outline, edge: { worstCase: design.worstCase, hoop } },
      ...design,
    };
    html = await reportPage({
      ...{ title: 'A page', brief: [], designs: [one], validation: [], cautions: [], search: [], versions: {} },
      ...(shape === undefined ? {} : { shape }),
      live: {
        script: readFileSync(new URL('../packages/cli/dist/live.js', import.meta.url), 'utf8'),
        data: liveData(task, [outlineOf(data, channelRoom(task))]),
      },
    });
    browser = await openBrowser();
    page = await browser.newPage();
    page.on('pageerror', ({ message }) => problems.push(message));
    page.on('console', (message) => message.type() === 'error' && problems.push(message.text()));
    await page.setContent(html);
  });
  afterAll(() => browser?.close());

  /** Area and peak as they are shown. */
  const shown = async () => {
    const of = async (name: string) => {
      const row = page.locator('.live-figures tr', { hasText: name });
      return Number(await row.locator('td').first().textContent());
    };
    return {
      area: await of('area, mm²'),
      peak: await of('peak stress, MPa'),
      retained: await of('strength retained, %'),
      factor: await of('load factor'),
    };
  };
  const saved = async () => {
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.locator('#live [data-save=JSON]').click(),
    ]);
    return JSON.parse(readFileSync((await download.path())!, 'utf8'));
  };

  it('is one file of less than 3 MB that needs no network and breaks no policy', async () => {
    expect(html.length).toBeLessThan(3e6);
    expect(/default-src .{0,5}none/.test(html)).toBe(true);
    await expect.poll(shown).toMatchObject({ area: expect.closeTo(Math.PI * 0.6, 3) });
    expect(problems).toEqual([]);
  });

  it('follows a handle that is moved by the keyboard, as Node computes it', async () => {
    const before = await shown();
    await page.locator('.handle').nth(7).focus();
    for (let i = 0; i < 5; i++) await page.keyboard.press('ArrowUp');
    await expect.poll(async () => (await shown()).area).toBeGreaterThan(before.area + 0.03);
    const { points } = await saved();
    const { design, strengthSummary } = judge({ points });
    const now = await shown();
    const { retained, loadFactor } = strengthSummary()!;
    // The saved points have as many digits as they need.
    expect(Math.abs((100 * retained) / now.retained - 1)).toBeLessThan(0.01);
    expect(Math.abs(loadFactor / now.factor - 1)).toBeLessThan(0.01);
    expect(now.retained).not.toBe(before.retained);
    expect(design.area / now.area).toBeCloseTo(1, 3);
    expect(Math.abs(design.peak / now.peak - 1)).toBeLessThan(0.01);
  });

  it('follows a slider', async () => {
    const before = await shown();
    await page.locator('[data-slider=width]').focus();
    for (let i = 0; i < 10; i++) await page.keyboard.press('ArrowRight');
    await expect.poll(async () => (await shown()).area / before.area).toBeCloseTo(1.1, 2);
  });

  it('refines to an outline of no less area and a lower peak, saved to the last digit', async () => {
    const before = await shown();
    await page.getByRole('button', { name: /refine/ }).press('Enter');
    await expect.poll(async () => (await shown()).peak, { timeout: 20_000 }).toBeLessThan(0.99 * before.peak);
    const now = await shown();
    expect(now.area).toBeGreaterThan(0.999 * before.area);
    const { family, parameters } = await saved();
    expect(judge({ family, parameters }).design.peak).toBeCloseTo(now.peak, 1);
    await page.getByRole('button', { name: /back to the design/ }).press('Enter');
    await expect.poll(async () => (await shown()).area).toBeCloseTo(Math.PI * 0.6, 3);
    expect(problems).toEqual([]);
  });

  it('says what is missing in a browser that cannot unpack its data', async () => {
    const older = await browser.newPage();
    await older.addInitScript(() => Reflect.deleteProperty(globalThis, 'DecompressionStream'));
    await older.goto('about:blank');
    await older.setContent(html);
    for (const part of ['#live', '#design'])
      expect(await older.locator(part).textContent()).toContain('before 2023 (it must know DecompressionStream)');
    await older.close();
  });
});
