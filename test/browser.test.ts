import { build } from 'esbuild';
import { unpackBytes } from 'lumenfront/report';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { browserPath, noteMissingBrowser, openBrowser, servePage } from './fixtures/browser.js';

/** What both sides compute: the whole way from a brief to a small front, its largest design checked and delivered, and the front read again. */
const front = `
  import { outlineOf, channelRoom, readBrief, readResult, starterBrief } from '@lumenfront/core';
  import { openThread, runCheck, runDelivery, runFront } from '@lumenfront/optimizer';

  export async function run() {
    const brief = await readBrief(starterBrief.replace(/evaluations: \\d+/, 'evaluations: 500'));
    const workplace = openThread();
    const front = await runFront(brief, { workplace });
    const { result } = await readResult(JSON.parse(JSON.stringify(front)), ['front'], 'front.json');
    const largest = result.designs.at(-1);
    const outline = outlineOf(largest, channelRoom(brief));
    const check = await runCheck(brief, outline, { mesh: false, workplace });
    const { ratio } = runDelivery(brief, outline, workplace);
    return [
      ...result.designs.map(({ family, area, peak }) => [family, area, peak]),
      ['check', check.area, check.fast.peak],
      ['deliver', ratio.area, ratio.flow],
    ];
  }
`;

type Found = [family: string, area: number, peak: number];

/** Drawings, pictures and a report of one channel. */
const documents = `
  import { hostOf, readBrief, starterBrief } from '@lumenfront/core';
  import { prepareDrawing, toCsv, toDxf, toSvg } from 'lumenfront/draw';
  import { contactSheet, frontPicture, jointPicture, seriesPicture } from 'lumenfront/picture';
  import { reportPage } from 'lumenfront/report';

  export async function run() {
    const circle = (count) => {
      const angles = Float64Array.from({ length: count }, (_, i) => ((i + 0.5) * 2 * Math.PI) / count);
      const [sines, cosines] = [angles.map((angle) => 0.5 * Math.sin(angle)), angles.map((angle) => 0.5 * Math.cos(angle))];
      return { x: cosines, y: sines.map((y) => 1.25 + y), dx: sines.map((y) => -y), dy: cosines };
    };
    const title = 'A channel in the middle of the filler';
    const { shape } = hostOf((await readBrief(starterBrief)).joint);
    const { x, y } = circle(60);
    const outline = Array.from(x, (value, i) => [value, y[i]]);
    const design = {
      family: 'ellipse', area: 0.785, peak: 80, conductance: 0.0245, parameters: {}, cases: {}, minEdgeRadius: 0.5, outline,
      edge: { worstCase: 'pulled', hoop: { pulled: outline.map((_, i) => 80 - i) } },
    };
    const drawing = prepareDrawing({ outline: circle, shape });
    const edge = { caseName: 'pulled', hoop: design.edge.hoop.pulled, peak: { stress: 80, at: outline[0] } };
    const axis = { title: 'channel area, mm²' };
    return {
      dxf: toDxf(drawing),
      csv: toCsv(drawing),
      svg: toSvg(drawing, { title }),
      front: await frontPicture({ title, designs: [design], allow: 100 }),
      joint: await jointPicture({ title, shape, outline, edge }),
      sheet: await contactSheet({ title, designs: [design], shape }),
      series: await seriesPicture({ title, x: axis, y: axis, series: [{ points: [{ x: 1, y: 1000 }] }], joined: true }),
      report: await reportPage({
        title, brief: [], shape, designs: [design], allow: 100, validation: [], cautions: [], search: [], versions: {},
      }),
    };
  }
`;

/** A job with its packages as one script without imports, as a page would load it. */
async function bundle(job: string): Promise<string> {
  const { outputFiles } = await build({
    stdin: { contents: job, resolveDir: import.meta.dirname, loader: 'js' },
    bundle: true,
    minify: true,
    write: false,
    format: 'iife',
    globalName: 'job',
    platform: 'browser',
    target: 'es2022',
    logLevel: 'silent',
  });
  return outputFiles[0]!.text;
}

/** A report with its data as text. */
async function unpacked(document: string): Promise<string> {
  const data = /id="report-data">(.*?)</.exec(document)?.[1];
  return data === undefined ? document : document.replace(data, new TextDecoder().decode(await unpackBytes(data)));
}

/** What a job gives in the page of a server, and in Node. */
async function runBoth<Result>(page: Page, script: string): Promise<{ inPage: Result; inNode: Result }> {
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  await page.route('http://localhost/', (route) => route.fulfill({ contentType: 'text/html', body: '' }));
  await page.goto('http://localhost/');
  await page.addScriptTag({ content: script });
  const inPage: Result = await page.evaluate('job.run()');
  const inNode: Result = await new Function(`${script}; return job.run();`)();
  expect(errors).toEqual([]);
  return { inPage, inNode };
}

describe('in a browser', { tags: 'long' }, () => {
  const scripts = { front: '', documents: '' };
  beforeAll(async () => {
    [scripts.front, scripts.documents] = await Promise.all([bundle(front), bundle(documents)]);
  });

  it.each(['front', 'documents'] as const)('%s: need nothing of Node', (job) => {
    expect(scripts[job]).not.toMatch(/require\("(node:|fs|path|os|crypto)/);
  });

  noteMissingBrowser();

  describe.runIf(browserPath !== undefined)('Chromium', () => {
    let browser: Browser;
    let page: Page;
    beforeAll(async () => {
      browser = await openBrowser();
    });
    beforeEach(async () => {
      page = await browser.newPage();
    });
    afterAll(() => browser?.close());

    it('core and optimizer find the front that they find in Node', async () => {
      const { inPage, inNode } = await runBoth<Found[]>(page, scripts.front);
      expect(inNode.length).toBeGreaterThan(5);
      expect(inPage).toHaveLength(inNode.length);
      // Sines and exponentials differ in their last digit from one engine to another; powers would by more (power.ts).
      for (const [i, [family, area, peak]] of inNode.entries()) {
        expect(inPage[i]![0]).toBe(family);
        expect(inPage[i]![1] / area).toBeCloseTo(1, 9);
        expect(inPage[i]![2] / peak).toBeCloseTo(1, 9);
      }
    });

    it('core and optimizer run under a policy that forbids to make code out of text, and try nothing of the kind', async () => {
      const policy = '<meta http-equiv="Content-Security-Policy" content="default-src \'self\'">';
      const probe = 'try { new Function(""); globalThis.made = true; } catch { globalThis.made = false; }';
      const watch =
        'globalThis.offences = []; addEventListener("securitypolicyviolation", (event) => offences.push(event.violatedDirective));';
      const parts = [watch, scripts.front, 'globalThis.done = job.run();', probe];
      const tags = parts.map((_, i) => `<script src="/${i}.js"></script>`);
      const { server, address } = servePage(
        new Map(parts.map((text, i) => [`/${i}.js`, text])),
        `<!doctype html><head><meta charset="utf-8">${policy}</head><body>${tags.slice(0, -1).join('')}</body>`,
      );
      const errors: string[] = [];
      page.on('pageerror', (error) => errors.push(error.message));
      try {
        await page.goto(address);
        expect(errors).toEqual([]);
        expect(await page.evaluate('done.then(({ length }) => length)')).toBeGreaterThan(5);
        expect(await page.evaluate('offences')).toEqual([]);
        // The policy does forbid it.
        await page.addScriptTag({ url: `/${parts.length - 1}.js` });
        expect(await page.evaluate('made')).toBe(false);
        await expect.poll(() => page.evaluate('offences')).toEqual(['script-src']);
      } finally {
        server.close();
      }
    });

    it('drawings, pictures and reports are written as in Node', async () => {
      const { inPage, inNode } = await runBoth<Record<string, string>>(page, scripts.documents);
      expect(Object.keys(inNode)).toHaveLength(8);
      for (const [name, document] of Object.entries(inNode)) {
        // Engines deflate each in its own way.
        const [there, here] = await Promise.all([inPage[name]!, document].map(unpacked));
        expect(there === here, name).toBe(true);
      }
      // The report's own script runs under its own policy, though a bundler renamed its functions.
      await page.setContent(inPage.report!);
      await expect.poll(() => page.locator('#design').textContent()).toContain('design 1');
    });
  });
});
