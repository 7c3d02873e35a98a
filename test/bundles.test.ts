// @module-tag long
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { gzipSync } from 'node:zlib';
import {
  createChannelScorer,
  createTask,
  encodeModel,
  fillerTeeHost,
  readBrief,
  readBriefText,
  reduceJoint,
  resolveBrief,
  starterBrief,
  type TeeJoint,
} from '@lumenfront/core';
import { createChannelEvaluator } from '@lumenfront/optimizer';
import { type BuildOptions, build } from 'esbuild';
import { rolldown } from 'rolldown';
import { describe, expect, it } from 'vitest';
import { browserPath, noteMissingBrowser, openBrowser, servePage } from './fixtures/browser.js';

const settings = (contents: string, conditions: string[]): BuildOptions => ({
  stdin: { contents, resolveDir: fileURLToPath(new URL('.', import.meta.url)) },
  ...{ conditions, bundle: true, minify: true, format: 'esm', logLevel: 'error' },
});

const bundle = async (contents: string, conditions: string[] = []) => {
  const { outputFiles } = await build({ ...settings(contents, conditions), write: false });
  return outputFiles[0]!.contents;
};

const front = 'createChannelEvaluator, findFront';
const fillers = 'registerHost, fillerTeeHost, fillerTeeBrief';
const named = 'lumenfront-named-hosts';

// What consumers may count on; benchmarks/sizes.js prints what it is.
it.each<[string, number, string, string, ...string[]]>([
  ['the stress of an outline', 14.5, 'createCurveNodes, createStressModel, decodeModel, ellipseFamily', ''],
  ['with the reduction of a tee', 46, 'createCurveNodes, createStressModel, ellipseFamily, reduceTeeJoint', ''],
  ['from what was read before to a front', 160, 'createTask, reduceJoint', front],
  ['from the data of a brief to a front', 146, `createTask, reduceJoint, resolveBrief, ${fillers}`, front, named],
  ['from the text of a brief to a front', 162, `createTask, reduceJoint, readBrief, ${fillers}`, front, named],
])('%s stays below %i kB', async (_, most, core, optimizer, ...conditions) => {
  const searched = optimizer === '' ? '' : `export { ${optimizer} } from '@lumenfront/optimizer';`;
  const bytes = await bundle(`export { ${core} } from '@lumenfront/core'; ${searched}`, conditions);
  expect(gzipSync(bytes, { level: 9 }).length).toBeLessThan(1000 * most);
});

it('holds the kinds of host alone that it registers, where it says so', async () => {
  const bytes = await bundle(
    `import { hostKind, meshedSection, registerHost, teeCheck, teeHost } from '@lumenfront/core';
    const known = () => ['tee', 'plate', 'laminate', 'section'].filter((kind) => { try { return hostKind(kind); } catch { return false; } });
    export const before = known();
    registerHost(teeHost);
    registerHost(teeHost);
    export const after = known();
    // With a joint that its check refuses at once, if it is there.
    const mesh = () => {
      try {
        meshedSection({ kind: 'tee' }, {}, [], undefined);
      } catch (error) {
        return String(error);
      }
    };
    export const unchecked = mesh();
    registerHost({ ...teeHost, ...teeCheck });
    export const checked = mesh();`,
    [named],
  );
  const folder = mkdtempSync(join(tmpdir(), 'lumenfront-'));
  writeFileSync(join(folder, 'bundle.mjs'), bytes);
  const { before, after, unchecked, checked } = await import(pathToFileURL(join(folder, 'bundle.mjs')).href).finally(
    () => rmSync(folder, { recursive: true }),
  );
  expect(before).toEqual([]);
  expect(after).toEqual(['tee']);
  expect(unchecked).toContain('registerHost({ ...teeHost, ...teeCheck })');
  expect(checked).not.toContain('registerHost');
});

/** What a page of its own bundler gets: hosts come when a brief names them. */
const onDemand = 'production';

it('loads the kind of host that a brief names, and others when asked to, where they come on demand', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'lumenfront-'));
  const contents = `
    import { briefSchema, hostKind, hostOf, InputError, loadHost, readBrief, reduceJoint, starterBrief } from '@lumenfront/core';
    const known = (kind) => {
      try {
        return hostKind(kind).kind;
      } catch (error) {
        return error instanceof InputError ? error.message : 'not an InputError';
      }
    };
    const said = (act) => Promise.resolve().then(act).then(() => 'nothing', ({ message }) => message);
    export const before = known('plate');
    const { joint, channel } = await readBrief('{ host: { kind: plate }, loads: { farField: { sx: 10 } } }');
    export const { kind } = reduceJoint(joint, channel);
    export const after = [known('plate'), known('laminate')];
    await loadHost('laminate');
    await loadHost('laminate');
    export const asked = known('laminate');
    const tee = (await readBrief(starterBrief)).joint;
    const isPart = () => hostKind('tee').part !== undefined;
    export const part = isPart();
    const pocketed = { ...tee, pocket: { in: 'bend' } };
    export const refused = await said(() => hostOf(pocketed));
    await loadHost(tee);
    export const stillPart = isPart();
    await loadHost(pocketed);
    export const both = !isPart() && Object.keys(hostKind('tee').places);
    await loadHost(tee);
    export const stillBoth = !isPart();
    export const misnamed = await said(() => readBrief('{ host: { kind: sheet } }'));
    export const schema = JSON.stringify(await briefSchema());`;
  await build({
    ...settings(contents, [onDemand]),
    splitting: true,
    outdir: folder,
    outExtension: { '.js': '.mjs' },
  });
  const entry = pathToFileURL(join(folder, 'stdin.mjs')).href;
  const seen = await import(entry).finally(() => rmSync(folder, { recursive: true }));
  expect(seen.before).toContain("await loadHost('plate') first");
  expect(seen.kind).toBe('plate');
  expect(seen.after).toEqual(['plate', expect.stringContaining("await loadHost('laminate') first")]);
  expect(seen.asked).toBe('laminate');
  expect(seen.refused).toContain('await loadHost(joint)');
  expect([seen.part, seen.stillPart, seen.stillBoth]).toEqual([true, true, true]);
  expect(seen.both).toContain('next-ply');
  for (const kind of ['tee', 'plate', 'laminate', 'section']) {
    expect(seen.misnamed).toContain(`kind: ${kind}`);
    expect(seen.schema).toContain(`"const":"${kind}"`);
  }
});

it.each([
  ['strength as a limit', { strength: { leastRetained: 0.5 } }],
  ['strength against area', { search: { against: 'strength-retained' } }],
  ['flow', { search: { enlarge: 'conductance' } }],
])('loads what judges %s where a task asks for it', async (_, asked) => {
  const folder = mkdtempSync(join(tmpdir(), 'lumenfront-'));
  const contents = `
    import { createChannelScorer, createTask, decodeModel, loadTask, resolveBrief } from '@lumenfront/core';
    import { createChannelEvaluator } from '@lumenfront/optimizer';
    export async function scores(data, bytes, x) {
      const brief = await resolveBrief(data);
      const task = createTask(brief, decodeModel('here', bytes));
      let refused = 'nothing';
      try { createChannelScorer(task); } catch ({ message }) { refused = message; }
      const [score] = await createChannelEvaluator(task).score(0, [x]);
      await loadTask(task);
      createChannelScorer(task);
      return { refused, score: [...score] };
    }`;
  await build({
    ...settings(contents, [onDemand]),
    splitting: true,
    outdir: folder,
    outExtension: { '.js': '.mjs' },
  });
  const { data } = await readBriefText(starterBrief);
  const asking = { ...(data as object), ...asked };
  const brief = await resolveBrief(asking);
  const model = reduceJoint(brief.joint, brief.channel);
  const { scores } = await import(pathToFileURL(join(folder, 'stdin.mjs')).href);
  const here = createChannelEvaluator(createTask(brief, model));
  const { families } = createChannelScorer(here.task);
  const x = Float64Array.from(families[0]!.parameters, ({ lower, upper }) => (lower + upper) / 2);
  const { refused, score } = await scores(asking, encodeModel('here', model), x).finally(() =>
    rmSync(folder, { recursive: true }),
  );
  expect(refused).toContain('await loadTask(task) first');
  expect(score).toEqual(Array.from((await here.score(0, [x]))[0]!));
});

it.each([
  ['a misspelled pocket', starterBrief.replace('  web: {', '  pockett: { in: foot }\n  web: {')],
  ['a load of another kind', 'host: { kind: plate }\nloads: { pull: { force: 2 } }'],
  [
    'a family of another kind',
    'host: { kind: plate }\nloads: { farField: { sx: 10 } }\nchannel: { families: [inset] }',
  ],
  ['a kind that is none', 'host: { kind: sheet }'],
])('says of %s on demand what is said with all hosts', async (_, text) => {
  const folder = mkdtempSync(join(tmpdir(), 'lumenfront-'));
  const contents = `
    import { readBrief } from '@lumenfront/core';
    export const said = await readBrief(${JSON.stringify(text)}).catch(({ message }) => message);`;
  writeFileSync(join(folder, 'said.mjs'), await bundle(contents, [onDemand]));
  const { said } = await import(pathToFileURL(join(folder, 'said.mjs')).href).finally(() =>
    rmSync(folder, { recursive: true }),
  );
  expect(said).toContain('expected');
  expect(said).toBe(await readBrief(text).catch(({ message }) => message));
});

noteMissingBrowser();
describe.runIf(browserPath !== undefined)('what a page has fetched before its front, gzipped', () => {
  const example = (name: string) =>
    readFileSync(fileURLToPath(new URL(`examples/${name}.yaml`, import.meta.url)), 'utf8');
  const program = (read: string) => `
    import { createTask, reduceJoint, ${read} } from '@lumenfront/core';
    import { createChannelEvaluator, findFront } from '@lumenfront/optimizer';
    globalThis.run = async (given) => {
      const brief = await ${read}(given);
      const model = reduceJoint(brief.joint, brief.channel);
      const { designs } = await findFront(createChannelEvaluator(createTask(brief, model)), { seed: 1, evaluations: 150 });
      return designs.length;
    };`;
  const plate = 'host: { kind: plate }\nloads: { farField: { sx: 10 } }\nchannel: { families: [ellipse] }';

  it.each<[string, 'resolveBrief' | 'readBrief', number, string]>([
    ['the text of a tee', 'readBrief', 144, starterBrief],
    ['the data of a tee', 'resolveBrief', 129, starterBrief],
    ['the text of a tee with a pocket', 'readBrief', 155, example('pocket-in-bend')],
    ['the text of a pocket beside a known channel', 'readBrief', 170, example('pocket-beside-filler')],
    ['the text of a laminate', 'readBrief', 146, example('pocket')],
    ['the text of a plate', 'readBrief', 116, plate],
  ])(
    'of %s (%s): below %i kB',
    async (_, read, most, text) => {
      const entry = 'entry.js';
      const given = {
        name: 'entry',
        resolveId: (id: string) =>
          id === entry ? join(fileURLToPath(new URL('.', import.meta.url)), entry) : undefined,
        load: (id: string) => (id.endsWith(entry) ? program(read) : undefined),
      };
      const resolve = { conditionNames: ['import', 'browser', 'default', onDemand] };
      const made = await rolldown({ input: entry, platform: 'browser', plugins: [given], resolve });
      const { output } = await made.generate({ format: 'esm', minify: true });
      const scripts = new Map(output.flatMap((one) => (one.type === 'chunk' ? [[`/${one.fileName}`, one.code]] : [])));
      const { server, address } = servePage(scripts, `<script type="module" src="/${output[0].fileName}"></script>`);
      const browser = await openBrowser();
      try {
        const page = await browser.newPage();
        const fetched: string[] = [];
        page.on('response', (answer) => fetched.push(new URL(answer.url()).pathname));
        await page.goto(address);
        const value = read === 'readBrief' ? text : (await readBriefText(text)).data;
        // biome-ignore lint/suspicious/noExplicitAny: the page's own function
        const count = await page.evaluate((brief) => (globalThis as any).run(brief), value);
        expect(count).toBeGreaterThan(0);
        const sizes = fetched
          .flatMap((path) => scripts.get(path) ?? [])
          .map((code) => gzipSync(code, { level: 9 }).length);
        expect(sizes.length).toBeGreaterThan(5);
        expect(sizes.reduce((sum, size) => sum + size)).toBeLessThan(1000 * most);
      } finally {
        await browser.close();
        server.close();
      }
    },
    120_000,
  );
});

it('refuses a pocket where only the fillers of tees are known', () => {
  expect(() => fillerTeeHost.open({ kind: 'tee', pocket: { in: 'foot' } } as TeeJoint)).toThrow('register teeHost');
});
