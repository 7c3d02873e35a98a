// Sizes of bundles that need a part of the engine only: `node benchmarks/sizes.js`.
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';

const stress = 'createCurveNodes, createStressModel, decodeModel';
const parts = {
  'stress of an outline of one family': `export { ${stress}, ellipseFamily } from '@lumenfront/core';`,
  'stress of an outline of any family': `export { ${stress}, outlineOf } from '@lumenfront/core';`,
  'with reduction': `export { ${stress}, ellipseFamily, reduceJoint } from '@lumenfront/core';`,
  'brief to front': `
    export { createTask, readBrief, reduceJoint } from '@lumenfront/core';
    export { createChannelEvaluator, findFront } from '@lumenfront/optimizer';`,
};

for (const [name, contents] of Object.entries(parts)) {
  const { outputFiles } = await build({
    stdin: { contents, resolveDir: fileURLToPath(new URL('.', import.meta.url)) },
    ...{ bundle: true, minify: true, format: 'esm', write: false, logLevel: 'error' },
  });
  const bytes = outputFiles[0].contents;
  const kB = (count) => (count / 1000).toFixed(1).padStart(6);
  console.log(`${name.padEnd(36)} ${kB(bytes.length)} kB, gzipped ${kB(gzipSync(bytes, { level: 9 }).length)} kB`);
}
