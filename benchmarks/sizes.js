// Sizes of bundles that need a part of the engine only, whatever they load later included: `node benchmarks/sizes.js`.
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';

const stress = 'createCurveNodes, createStressModel, decodeModel';
const front = (read) => ({
  contents: `
    export { createTask, reduceJoint${read} } from '@lumenfront/core';
    export { createChannelEvaluator, findFront } from '@lumenfront/optimizer';`,
});
const parts = {
  'stress of an outline of one family': `export { ${stress}, ellipseFamily } from '@lumenfront/core';`,
  'stress of an outline of any family': `export { ${stress}, outlineOf } from '@lumenfront/core';`,
  'with reduction of a tee': `export { ${stress}, ellipseFamily, reduceTeeJoint } from '@lumenfront/core';`,
  'with reduction of any host': `export { ${stress}, ellipseFamily, reduceJoint } from '@lumenfront/core';`,
  'what was read before to front': front(''),
  'data of a brief to front': front(', resolveBrief'),
  'text of a brief to front': front(', readBrief'),
  'read before to front and mesh': front(', meshedStress'),
  'read before, tees only': { ...front(', registerHost, teeHost'), named: true },
  'data to front, tees only': { ...front(', resolveBrief, registerHost, teeHost, teeBrief'), named: true },
  'text to front, tees only': { ...front(', readBrief, registerHost, teeHost, teeBrief'), named: true },
};

for (const [name, part] of Object.entries(parts)) {
  const { contents, named = false } = typeof part === 'string' ? { contents: part } : part;
  const { outputFiles } = await build({
    stdin: { contents, resolveDir: fileURLToPath(new URL('.', import.meta.url)) },
    conditions: named ? ['lumenfront-named-hosts'] : [],
    ...{ bundle: true, minify: true, format: 'esm', write: false, logLevel: 'error' },
  });
  const bytes = outputFiles[0].contents;
  const kB = (count) => (count / 1000).toFixed(1).padStart(6);
  console.log(`${name.padEnd(36)} ${kB(bytes.length)} kB, gzipped ${kB(gzipSync(bytes, { level: 9 }).length)} kB`);
}
