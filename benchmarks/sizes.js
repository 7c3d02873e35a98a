// Sizes of bundles that need a part of the engine only, by two bundlers: `node benchmarks/sizes.js`. First of all that a bundle holds, whatever is loaded later
// included; then the files that a page has fetched when it has found the front of such a joint, where the bundler sets what those of whole pages set.
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import { rolldown } from 'rolldown';

const stress = 'createCurveNodes, createStressModel, decodeModel';
const front = (read) => `
    export { createTask, reduceJoint${read} } from '@lumenfront/core';
    export { createChannelEvaluator, findFront } from '@lumenfront/optimizer';`;
const named = 'lumenfront-named-hosts';
const parts = [
  ['stress of an outline of one family', `export { ${stress}, ellipseFamily } from '@lumenfront/core';`],
  ['stress of an outline of any family', `export { ${stress}, outlineOf } from '@lumenfront/core';`],
  ['with reduction of a tee', `export { ${stress}, ellipseFamily, reduceTeeJoint } from '@lumenfront/core';`],
  ['with reduction of any host', `export { ${stress}, ellipseFamily, reduceJoint } from '@lumenfront/core';`],
  ['what was read before to front', front('')],
  ['data of a brief to front', front(', resolveBrief')],
  ['text of a brief to front', front(', readBrief')],
  ['read before to front and mesh', front(', meshedStress')],
  ['read before, tees only', front(', registerHost, teeHost'), named],
  ['data to front, tees only', front(', resolveBrief, registerHost, teeHost, teeBrief'), named],
  ['text to front, tees only', front(', readBrief, registerHost, teeHost, teeBrief'), named],
  ['read before, fillers of tees only', front(', registerHost, fillerTeeHost'), named],
  ['data, fillers of tees only', front(', resolveBrief, registerHost, fillerTeeHost, fillerTeeBrief'), named],
  ['text, fillers of tees only', front(', readBrief, registerHost, fillerTeeHost, fillerTeeBrief'), named],
];
const kinds = {
  tee: 'filler-tee',
  'tee with a pocket': 'pocket-tee',
  'pocket and channel': 'beside-tee',
  plate: 'plate',
  laminate: 'laminate',
  section: 'section',
};

const entry = fileURLToPath(new URL('entry-that-is-no-file.js', import.meta.url));
const zipped = (bytes) => gzipSync(bytes, { level: 9 }).length;
const kB = (count) => `${(count / 1000).toFixed(1).padStart(6)} kB`;

/** In one file. */
async function byEsbuild(contents, conditions) {
  const { outputFiles } = await build({
    stdin: { contents, sourcefile: entry, resolveDir: fileURLToPath(new URL('.', import.meta.url)) },
    ...{ conditions, bundle: true, minify: true, format: 'esm', write: false, logLevel: 'error' },
  });
  return outputFiles[0].contents;
}

/** In as many files as are loaded by themselves. */
async function byRolldown(contents, conditions) {
  const given = {
    name: 'entry',
    resolveId: (id) => (id === entry ? id : undefined),
    load: (id) => (id === entry ? contents : undefined),
  };
  const resolve = { conditionNames: ['import', 'browser', 'default', ...conditions] };
  const bundle = await rolldown({ input: entry, platform: 'browser', plugins: [given], resolve });
  return (await bundle.generate({ format: 'esm', minify: true })).output;
}

/** Files that are fetched from the first one on; of what is loaded later, all but what `isNeeded` refuses by its first module. */
function fetched(files, isNeeded) {
  const found = new Set();
  const fetch = (file) => {
    if (found.has(file)) return;
    found.add(file);
    const named = (name) => files.find(({ fileName }) => fileName === name);
    for (const name of file.imports) fetch(named(name));
    for (const later of file.dynamicImports.map(named)) if (isNeeded(later.facadeModuleId ?? '')) fetch(later);
  };
  fetch(files.find(({ isEntry }) => isEntry));
  return [...found].map(({ code }) => code);
}

const total = (codes) => codes.reduce((sum, code) => sum + zipped(code), 0);
console.log(`${'gzipped'.padEnd(36)}    esbuild    rolldown`);
for (const [name, contents, ...conditions] of parts) {
  const other = fetched(await byRolldown(contents, conditions), () => true);
  console.log(`${name.padEnd(36)}  ${kB(zipped(await byEsbuild(contents, conditions)))}  ${kB(total(other))}`);
}
console.log('\nfetched before the front, gzipped                   rolldown');
/** As a page runs it: what nobody imports from it need not be kept apart. */
const page = (read) => `
    import { createTask, reduceJoint, ${read} } from '@lumenfront/core';
    import { createChannelEvaluator, findFront } from '@lumenfront/optimizer';
    globalThis.run = async (given) => {
      const brief = await ${read}(given);
      return findFront(createChannelEvaluator(createTask(brief, reduceJoint(brief.joint, brief.channel))), { seed: 1 });
    };`;
const seldom = ['input/json-schema.js', 'brief/seldom.js', 'channel/judging.js', 'on-demand/tee.js'];
for (const [from, read, unread] of [
  ['data', 'resolveBrief', ['brief/compose-yaml.js']],
  ['text', 'readBrief', []],
]) {
  const files = await byRolldown(page(read), ['production']);
  for (const [name, kind] of Object.entries(kinds)) {
    const others = Object.values(kinds).filter((other) => other !== kind);
    const left = [...others.map((other) => `on-demand/${other}.js`), ...seldom, ...unread];
    const codes = fetched(files, (module) => !left.some((one) => module.endsWith(one)));
    console.log(`${`${from} to front: ${name}`.padEnd(48)}  ${kB(total(codes))}  in ${codes.length} files`);
  }
}
