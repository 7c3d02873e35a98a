// In Chromium (on the PATH): updates of the report's live page, and the reduction of the starter joint in a worker.
// `node benchmarks/browser.js [REPORT.html]` after `npm run build`; without a report, one of eight ellipses is made.
import { existsSync, readFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import {
  channelRoom,
  createChannelReporter,
  createTask,
  hostOf,
  outlineOf,
  readBrief,
  reduceJoint,
  starterBrief,
} from '@lumenfront/core';
import { build } from 'esbuild';
import { liveData, reportPage } from 'lumenfront/report';
import { chromium } from 'playwright-core';
import { summary } from './timing.js';

const executablePath = (process.env.PATH ?? '')
  .split(delimiter)
  .map((folder) => join(folder, 'chromium'))
  .find(existsSync);
const [file] = process.argv.slice(2);
const updates = 60;
const runs = 5;

async function eightEllipses() {
  const brief = await readBrief(starterBrief);
  const task = createTask(brief, reduceJoint(brief.joint, brief.channel));
  const report = createChannelReporter(task);
  const outlines = Array.from({ length: 8 }, (_, k) =>
    outlineOf(
      { family: 'ellipse', parameters: { y: 1.9, width: 0.8 + 0.25 * k, height: 0.6 + 0.15 * k } },
      channelRoom(task),
    ),
  );
  const designs = outlines.map((outline) => {
    const { design, edge, caseHoop } = report(outline);
    const hoop = Object.fromEntries(Object.entries(caseHoop).map(([name, values]) => [name, Array.from(values)]));
    return {
      ...{ family: 'ellipse', parameters: { y: 1.9, width: design.width, height: design.height } },
      ...design,
      outline: Array.from(edge.nodes.x, (x, j) => [x, edge.nodes.y[j]]),
      edge: { worstCase: design.worstCase, hoop },
    };
  });
  return reportPage({
    ...{ title: 'Eight ellipses', brief: [], designs, validation: [], cautions: [], search: [], versions: {} },
    shape: hostOf(brief.joint).shape,
    live: {
      script: readFileSync(new URL('../packages/cli/dist/live.js', import.meta.url), 'utf8'),
      data: liveData(task, outlines),
    },
  });
}

const text = ({ minimum, median }) => `minimum ${minimum.toFixed(1)} ms, median ${median.toFixed(1)} ms`;

const browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] });
try {
  const html = file === undefined ? await eightEllipses() : readFileSync(file, 'utf8');
  console.log(`page: ${(html.length / 1e6).toFixed(2)} MB, gzipped ${(gzipSync(html).length / 1e6).toFixed(2)} MB`);
  const page = await browser.newPage();
  await page.setContent(html);
  const frames = () =>
    page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  const timesOf = (name) =>
    page.evaluate((of) => performance.getEntriesByName(of).map(({ duration }) => duration), name);
  await page.locator('.handle').nth(7).focus();
  for (let i = 0; i < updates; i++) {
    await page.keyboard.press(i % 2 === 0 ? 'ArrowUp' : 'ArrowDown');
    await frames();
  }
  const times = await timesOf('outline update');
  const told = await page.locator('.live-figures tr', { hasText: 'strength retained' }).count();
  console.log(`update of the page${told > 0 ? ', strength too' : ''}: ${text(summary(times.slice(-updates)))}`);
  for (let i = 0; i < runs; i++) {
    await page.keyboard.press(i % 2 === 0 ? 'ArrowUp' : 'ArrowDown');
    await page.waitForTimeout(400);
  }
  console.log(`once it is at rest: ${text(summary((await timesOf('outline at rest')).slice(-runs)))}`);

  const { outputFiles } = await build({
    stdin: {
      contents: `
        import { readBrief, reduceJoint, starterBrief } from '@lumenfront/core';
        self.onmessage = async () => {
          const brief = await readBrief(starterBrief);
          for (let run = 0; run < ${runs}; run++) {
            const begun = performance.now();
            let told = 0;
            reduceJoint(brief.joint, brief.channel, (share) => { told++; self.postMessage({ share }); });
            self.postMessage({ told, took: performance.now() - begun });
          }
        };`,
      resolveDir: fileURLToPath(new URL('.', import.meta.url)),
    },
    ...{ bundle: true, minify: true, format: 'iife', write: false, logLevel: 'error' },
  });
  // The report's page lets no worker in.
  const blank = await browser.newPage();
  const found = await blank.evaluate(
    ({ script, runs }) =>
      new Promise((resolve, reject) => {
        const worker = new Worker(URL.createObjectURL(new Blob([script], { type: 'text/javascript' })));
        const all = [];
        worker.onerror = ({ message }) => reject(new Error(message));
        worker.onmessage = ({ data }) => {
          if (data.took === undefined) return;
          if (all.push(data) === runs) resolve(all);
        };
        worker.postMessage('go');
      }),
    { script: outputFiles[0].text, runs },
  );
  console.log(
    `reduction of the starter joint in a worker: first ${found[0].took.toFixed(0)} ms, ${text(summary(found.map(({ took }) => took)))}; progress told ${found[0].told} times`,
  );
  // Of a machine that others use, the ratio of the two and the time on the processor say more.
  const brief = await readBrief(starterBrief);
  const inNode = Array.from({ length: runs }, () => {
    const [begun, used] = [performance.now(), process.cpuUsage()];
    reduceJoint(brief.joint, brief.channel);
    const { user, system } = process.cpuUsage(used);
    return { took: performance.now() - begun, processor: (user + system) / 1000 };
  });
  console.log(
    `the same in Node: ${text(summary(inNode.map(({ took }) => took)))}; on the processor ${text(summary(inNode.map(({ processor }) => processor)))}`,
  );
} finally {
  await browser.close();
}
