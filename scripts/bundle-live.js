// Bundles the report's solver into the one script that a page holds: packages/cli/dist/live.js. After `tsc -b`.
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const cli = fileURLToPath(new URL('../packages/cli', import.meta.url));
await build({
  entryPoints: [`${cli}/dist/report/live/start.js`],
  outfile: `${cli}/dist/live.js`,
  bundle: true,
  minify: true,
  format: 'iife',
  target: 'es2022',
  // A text within an HTML file: nothing in it may end the script element.
  supported: { 'inline-script': false },
  logLevel: 'warning',
});
