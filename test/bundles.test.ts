import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import { expect, it } from 'vitest';

const bundle = async (contents: string, conditions: string[] = []) => {
  const { outputFiles } = await build({
    stdin: { contents, resolveDir: fileURLToPath(new URL('.', import.meta.url)) },
    conditions,
    ...{ bundle: true, minify: true, format: 'esm', write: false, logLevel: 'error' },
  });
  return outputFiles[0]!.contents;
};

// What consumers may count on; benchmarks/sizes.js prints what it is.
it.each([
  ['the stress of an outline', 20, 'createCurveNodes, createStressModel, decodeModel, ellipseFamily', ''],
  ['with the reduction of a tee', 50, 'createCurveNodes, createStressModel, ellipseFamily, reduceTeeJoint', ''],
  ['from what was read before to a front', 155, 'createTask, reduceJoint', 'createChannelEvaluator, findFront'],
])('%s stays below %i kB', async (_, most, core, optimizer) => {
  const searched = optimizer === '' ? '' : `export { ${optimizer} } from '@lumenfront/optimizer';`;
  const bytes = await bundle(`export { ${core} } from '@lumenfront/core'; ${searched}`);
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
    ['lumenfront-named-hosts'],
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
