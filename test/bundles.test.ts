import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { gzipSync } from 'node:zlib';
import { fillerTeeHost, type TeeJoint } from '@lumenfront/core';
import { type BuildOptions, build } from 'esbuild';
import { expect, it } from 'vitest';

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
  ['the stress of an outline', 20, 'createCurveNodes, createStressModel, decodeModel, ellipseFamily', ''],
  ['with the reduction of a tee', 50, 'createCurveNodes, createStressModel, ellipseFamily, reduceTeeJoint', ''],
  ['from what was read before to a front', 155, 'createTask, reduceJoint', front],
  ['from the data of a brief to a front', 145, `createTask, reduceJoint, resolveBrief, ${fillers}`, front, named],
  ['from the text of a brief to a front', 178, `createTask, reduceJoint, readBrief, ${fillers}`, front, named],
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

it('loads the kind of host that a brief names, and others when asked to, where they come on demand', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'lumenfront-'));
  const contents = `
    import { briefSchema, hostKind, InputError, loadHost, readBrief, reduceJoint } from '@lumenfront/core';
    const known = (kind) => {
      try {
        return hostKind(kind).kind;
      } catch (error) {
        return error instanceof InputError ? error.message : 'not an InputError';
      }
    };
    export const before = known('plate');
    const { joint, channel } = await readBrief('{ host: { kind: plate }, loads: { farField: { sx: 10 } } }');
    export const { kind } = reduceJoint(joint, channel);
    export const after = [known('plate'), known('laminate')];
    await loadHost('laminate');
    await loadHost('laminate');
    export const asked = known('laminate');
    export const misnamed = await readBrief('{ host: { kind: sheet } }').catch(({ message }) => message);
    export const schema = JSON.stringify(await briefSchema());`;
  await build({
    ...settings(contents, ['lumenfront-hosts-on-demand']),
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
  for (const kind of ['tee', 'plate', 'laminate', 'section']) {
    expect(seen.misnamed).toContain(`kind: ${kind}`);
    expect(seen.schema).toContain(`"const":"${kind}"`);
  }
});

it('refuses a pocket where only the fillers of tees are known', () => {
  expect(() => fillerTeeHost.open({ kind: 'tee', pocket: { in: 'foot' } } as TeeJoint)).toThrow('register teeHost');
});
