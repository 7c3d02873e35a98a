import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { browserPath, noteMissingBrowser, openBrowser } from './fixtures/browser.js';

/** What both sides compute: the whole way from a brief to a small front. */
const job = `
  import { readBrief, reduceJoint, starterBrief } from '@lumenfront/core';
  import { createChannelEvaluator, findFront } from '@lumenfront/optimizer';

  export async function run() {
    const brief = await readBrief(starterBrief);
    const task = { ...brief, model: reduceJoint(brief.joint, brief.channel) };
    const { designs } = await findFront(task, createChannelEvaluator(task), { seed: 1, evaluations: 500 });
    return designs.map(({ family, size, cost }) => [family, size, cost]);
  }
`;

type Found = [family: string, area: number, peak: number];

/** The job with both packages as one script without imports, as a page would load it. */
async function bundle(): Promise<string> {
  const { outputFiles } = await build({
    stdin: { contents: job, resolveDir: import.meta.dirname, loader: 'js' },
    bundle: true,
    write: false,
    format: 'iife',
    globalName: 'job',
    platform: 'browser',
    target: 'es2022',
    logLevel: 'silent',
  });
  return outputFiles[0]!.text;
}

describe('core and optimizer', () => {
  let script: string;
  beforeAll(async () => {
    script = await bundle();
  });

  it('need nothing of Node', () => {
    expect(script).not.toMatch(/require\("(node:|fs|path|os|crypto)/);
  });

  noteMissingBrowser();

  describe.runIf(browserPath !== undefined)('in a browser', () => {
    let close = async () => {};
    afterAll(() => close());

    it('find the front that they find in Node', async () => {
      const browser = await openBrowser();
      close = () => browser.close();
      const page = await browser.newPage();
      const errors: string[] = [];
      page.on('pageerror', (error) => errors.push(error.message));
      await page.addScriptTag({ content: script });
      const inPage: Found[] = await page.evaluate('job.run()');
      const inNode: Found[] = await new Function(`${script}; return job.run();`)();
      expect(errors).toEqual([]);
      expect(inNode.length).toBeGreaterThan(5);
      expect(inPage).toHaveLength(inNode.length);
      // Sines and exponentials differ in their last digit from one engine to another.
      for (const [i, [family, area, peak]] of inNode.entries()) {
        expect(inPage[i]![0]).toBe(family);
        expect(inPage[i]![1] / area).toBeCloseTo(1, 6);
        expect(inPage[i]![2] / peak).toBeCloseTo(1, 6);
      }
    });
  });
});
