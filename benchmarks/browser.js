// In Chromium (on the PATH): updates of the report's live page, and the reduction of the starter joint in a worker.
// `node benchmarks/browser.js [REPORT.html]` after `npm run build`; without a report, one of eight ellipses is made.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
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

/** Milliseconds that each worker of the browser that this process has started was on a processor, by its thread (Linux; none elsewhere). */
function workerTimes() {
  const times = new Map();
  if (!existsSync('/proc/self/schedstat')) return times;
  const statOf = (path) => {
    const stat = readFileSync(`${path}/stat`, 'utf8');
    const end = stat.lastIndexOf(')');
    return { name: stat.slice(stat.indexOf('(') + 1, end), parent: Number(stat.slice(end + 2).split(' ')[1]) };
  };
  const isOurs = (id) => id === process.pid || (id > 1 && isOurs(statOf(`/proc/${id}`).parent));
  for (const id of readdirSync('/proc').filter((name) => /^\d+$/.test(name)))
    try {
      if (Number(id) === process.pid || !isOurs(Number(id))) continue;
      for (const thread of readdirSync(`/proc/${id}/task`)) {
        const path = `/proc/${id}/task/${thread}`;
        if (statOf(path).name.startsWith('DedicatedWorker'))
          times.set(thread, Number(readFileSync(`${path}/schedstat`, 'utf8').split(' ')[0]) / 1e6);
      }
    } catch (error) {
      // Processes end while they are looked at.
      if (!['ENOENT', 'ESRCH'].includes(error.code)) throw error;
    }
  return times;
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
        const reading = readBrief(starterBrief);
        self.onmessage = async () => {
          const brief = await reading;
          const begun = performance.now();
          let told = 0;
          reduceJoint(brief.joint, brief.channel, (share) => { told++; self.postMessage({ share }); });
          self.postMessage({ told, took: performance.now() - begun });
        };`,
      resolveDir: fileURLToPath(new URL('.', import.meta.url)),
    },
    ...{ bundle: true, minify: true, format: 'iife', write: false, logLevel: 'error' },
  });
  // The report's page lets no worker in.
  const blank = await browser.newPage();
  /** Reductions one after the other in a worker that has done none: milliseconds, and those of them that its thread was on a processor. */
  const inWorker = async () => {
    await blank.evaluate((script) => {
      window.worker = new Worker(URL.createObjectURL(new Blob([script], { type: 'text/javascript' })));
    }, outputFiles[0].text);
    const all = [];
    for (let run = 0; run < 3; run++) {
      const used = workerTimes();
      const answer = await blank.evaluate(
        () =>
          new Promise((resolve, reject) => {
            window.worker.onerror = ({ message }) => reject(new Error(message));
            window.worker.onmessage = ({ data }) => data.took !== undefined && resolve(data);
            window.worker.postMessage('go');
          }),
      );
      const spent = [...workerTimes()].map(([thread, time]) => time - (used.get(thread) ?? 0));
      all.push({ ...answer, processor: spent.length === 0 ? Number.NaN : Math.max(...spent) });
    }
    await blank.evaluate(() => window.worker.terminate());
    return all;
  };
  const found = [];
  for (let run = 0; run < runs; run++) found.push(await inWorker());
  const said = (all) =>
    `${text(summary(all.map(({ took }) => took)))}; its thread on the processor ${text(summary(all.map(({ processor }) => processor)))}`;
  console.log(`reduction of the starter joint in a new worker: ${said(found.map(([first]) => first))}`);
  console.log(
    `the next ones in it: ${said(found.flatMap(([, ...later]) => later))}; progress told ${found[0][0].told} times`,
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
