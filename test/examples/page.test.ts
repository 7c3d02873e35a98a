import { readFileSync } from 'node:fs';
import type { Server } from 'node:http';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { browserPath, noteMissingBrowser, openBrowser, servePage } from '../fixtures/browser.js';

const file = (name: string) => fileURLToPath(new URL(`page/${name}`, import.meta.url));

noteMissingBrowser();
describe.runIf(browserPath !== undefined)('a page that finds a front in a worker', { tags: 'long' }, () => {
  let server: Server;
  let browser: Browser;
  let page: Page;
  const problems: string[] = [];

  beforeAll(async () => {
    const { outputFiles } = await build({
      entryPoints: [file('page.ts'), file('worker.ts')],
      ...{ outdir: '/', bundle: true, minify: true, format: 'iife', write: false, logLevel: 'error' },
    });
    const files = new Map(outputFiles.map(({ path, text }) => [path, text]));
    const served = servePage(files, readFileSync(file('index.html'), 'utf8'));
    server = served.server;
    browser = await openBrowser();
    page = await browser.newPage({ viewport: { width: 1200, height: 800 } });
    page.on('pageerror', ({ message }) => problems.push(message));
    await page.goto(served.address);
  });
  afterAll(async () => {
    await browser?.close();
    server?.close();
  });

  const status = () => page.locator('#status').textContent();
  const start = async (change: (brief: string) => string) => {
    const brief = await page.locator('#brief').inputValue();
    await page.locator('#brief').fill(change(brief));
    await page.locator('#start').click();
  };

  it('says what is wrong with a brief', async () => {
    await start((brief) => brief.replace(/bendRadius: .*/, 'bendRadius: -1'));
    await expect.poll(status, { timeout: 20_000 }).toContain('host.bendRadius: expected');
  });

  it('finds a front with progress, and solves the chosen design as its slider moves', async () => {
    await start((brief) =>
      brief.replace(/bendRadius: .*/, 'bendRadius: 8').replace(/evaluations: .*/, 'evaluations: 600'),
    );
    await expect
      .poll(() => page.locator('#progress').evaluate((bar) => (bar as HTMLProgressElement).value), { timeout: 30_000 })
      .toBeGreaterThan(0);
    await expect.poll(status, { timeout: 30_000 }).toContain('finished');
    expect(await page.locator('#front circle').count()).toBeGreaterThan(5);
    for (const title of ['channel area, mm²', 'peak stress, MPa'])
      expect(await page.locator('#front text', { hasText: title }).count()).toBe(1);
    const figures = await page.locator('#figures').textContent();
    expect(figures).toMatch(/area [\d.]+ mm², conductance .* peak [\d.]+ MPa/);
    await page.locator('#front circle').first().focus();
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => page.locator('#figures').textContent()).not.toBe(figures);
  });

  it('stops when it is told to, with what was found until then', async () => {
    await start((brief) => brief.replace(/evaluations: .*/, 'evaluations: 1000000'));
    await expect.poll(status, { timeout: 20_000 }).toContain('searching');
    await page.waitForFunction(() => (document.querySelector('#progress') as HTMLProgressElement).value > 0);
    await page.locator('#stop').click();
    await expect.poll(status, { timeout: 20_000 }).toContain('aborted');
    expect(problems).toEqual([]);
  });
});
