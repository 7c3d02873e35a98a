import {
  chmodSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  type ChannelTask,
  encodeModel,
  type ReducedModel,
  type ResolvedBrief,
  readBrief,
  reduceJoint,
  starterBrief,
  type TeeJoint,
} from '@lumenfront/core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { cacheFolder } from './cache-folder.js';
import { prepareTask } from './index.js';
import { modelKey, readModel, writeModel } from './model-cache.js';
import { reduceHeights } from './reduce-heights.js';

let folder: string;
let brief: ResolvedBrief;
const notes: string[] = [];
const note = (text: string) => void notes.push(text);
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'lumenfront-cache-'));
  brief = await readBrief(starterBrief);
  notes.length = 0;
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Not all of a model, but every kind of number that a text format would bend. */
const model = (kappa = 1.9) =>
  ({
    basis: { degree: 1, centreX: -0, centreY: 1 / 3, length: Number.MIN_VALUE },
    kappa,
    responses: [{ symmetric: Float64Array.of(0.1 + 0.2, -0, Number.NaN), antisymmetric: new Float64Array(0) }],
    contour: undefined,
  }) as unknown as ReducedModel;

describe('the key of a model', () => {
  it('changes with the joint and with what shapes the contour, not with the search, a strength or the size of a load', () => {
    const key = modelKey(brief);
    const joint = brief.joint as TeeJoint;
    const of = (change: Partial<ResolvedBrief>) => modelKey({ ...brief, ...change });
    expect(of({ search: { ...brief.search, seed: 7, evaluations: 100 }, title: 'another', allow: 1 })).toBe(key);
    expect(of({ loads: { ...brief.loads, pull: { force: 1 } } })).toBe(key);
    const stronger = { ...joint, filler: { ...joint.filler, transverseTension: 1 } } as TeeJoint;
    expect(of({ joint: stronger })).toBe(key);
    expect(of({ channel: { ...brief.channel, wall: 0.3 } })).not.toBe(key);
    expect(of({ joint: { ...joint, filler: { ...joint.filler, E2: 1 } } as TeeJoint })).not.toBe(key);
  });
});

describe('the cache', () => {
  it('gives back what was put in, under its key only', () => {
    writeModel(folder, 'a', model(1));
    writeModel(folder, 'b', model(2));
    expect(readModel(folder, 'a', note)?.kappa).toBe(1);
    expect(readModel(folder, 'b', note)?.kappa).toBe(2);
    expect(readModel(folder, 'c', note)).toBeUndefined();
    expect(notes).toEqual([]);
    expect(readdirSync(folder).sort()).toEqual(['a.model', 'b.model']);
  });

  it('says so when a file is damaged or was moved from another key', () => {
    writeModel(folder, 'a', model());
    renameSync(join(folder, 'a.model'), join(folder, 'b.model'));
    writeFileSync(join(folder, 'c.model'), 'not a model');
    expect(readModel(folder, 'b', note)).toBeUndefined();
    expect(readModel(folder, 'c', note)).toBeUndefined();
    expect(notes).toHaveLength(2);
    expect(notes[0]).toContain('b.model is damaged');
  });

  it('keeps the models used last, so many bytes of them, and nothing of writes that were killed', () => {
    writeModel(folder, 'new', model());
    const size = statSync(join(folder, 'new.model')).size;
    for (let i = 0; i < 5; i++) {
      const path = join(folder, `${i}.model`);
      writeFileSync(path, new Uint8Array(size));
      utimesSync(path, 1000 + i, 1000 + i);
    }
    for (const name of ['of the user.txt', '.old.model.7-0.tmp', '.young.model.8-0.tmp', '.of the user.tmp'])
      writeFileSync(join(folder, name), '');
    for (const name of ['.old.model.7-0.tmp', '.of the user.tmp']) utimesSync(join(folder, name), 1000, 1000);
    writeModel(folder, 'new', model(), 3 * size);
    expect(readdirSync(folder).sort()).toEqual(
      ['.of the user.tmp', '.young.model.8-0.tmp', '3.model', '4.model', 'new.model', 'of the user.txt'].sort(),
    );
  });

  it('does without where it cannot write', () => {
    const file = join(folder, 'file');
    writeFileSync(file, '');
    writeModel(file, 'a', model());
    expect(readModel(file, 'a', note)).toBeUndefined();
    // Root may write anywhere; for everyone else a folder without that right is no hindrance either.
    chmodSync(folder, 0o500);
    writeModel(folder, 'a', model());
    chmodSync(folder, 0o700);
    expect(notes).toEqual([]);
  });
});

describe('the place of the cache', () => {
  it('is chosen by LUMENFRONT_CACHE, nowhere if that is empty, else by the platform', () => {
    expect(cacheFolder({ LUMENFRONT_CACHE: '/x' }, 'linux', '/home/u')).toBe('/x');
    expect(cacheFolder({ LUMENFRONT_CACHE: '' }, 'linux', '/home/u')).toBe('');
    expect(cacheFolder({}, 'linux', '/home/u')).toBe(join('/home/u', '.cache', 'lumenfront'));
    expect(cacheFolder({ XDG_CACHE_HOME: '/c' }, 'linux', '/home/u')).toBe(join('/c', 'lumenfront'));
    expect(cacheFolder({}, 'darwin', '/Users/u')).toBe(join('/Users/u', 'Library', 'Caches', 'lumenfront'));
    expect(cacheFolder({ LOCALAPPDATA: 'L' }, 'win32', 'H')).toBe(join('L', 'lumenfront', 'cache'));
  });
});

/** Their models by bytes: number by number it takes half a minute. */
function sameTask({ model: found, ...task }: ChannelTask, { model, ...expected }: ChannelTask): void {
  expect(Buffer.compare(encodeModel('same', found), encodeModel('same', model))).toBe(0);
  expect(task).toEqual(expected);
}

describe('preparing a task', () => {
  it('solves the joint once, gives the same task from the cache, and repairs the file when it is damaged', {
    tags: 'long',
    timeout: 120_000,
  }, () => {
    const first = prepareTask(brief, note, folder);
    expect(notes).toEqual([]);
    const again = prepareTask(brief, note, folder);
    expect(notes).toEqual([`joint solved before: reduced model taken from ${folder}`]);
    sameTask(again, first);

    const path = join(folder, readdirSync(folder)[0]!);
    const sound = readFileSync(path);
    writeFileSync(path, sound.subarray(0, 1000));
    sameTask(prepareTask(brief, note, folder), first);
    expect(notes[1]).toContain('damaged');
    expect(readFileSync(path).equals(sound)).toBe(true);
  });

  it('keeps no cache of a plate', async () => {
    const plate = await readBrief(
      JSON.stringify({
        title: 'sheet',
        host: { kind: 'plate', material: 'm' },
        materials: {
          m: {
            E1: 1e5,
            E2: 1e4,
            nu12: 0.3,
            nu23: 0.4,
            G12: 5e3,
            alpha1: 0,
            alpha2: 1e-5,
            transverseTension: 50,
            interlaminarShear: 80,
          },
        },
        loads: { farField: { sx: 2, sy: 1, txy: 0 } },
        cases: { pulled: { farField: 1 } },
      }),
    );
    expect(prepareTask(plate, note, folder).model.basis.degree).toBe(1);
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe('a table of heights', () => {
  it('is the same to the last bit, half of it reduced in another thread', {
    tags: 'long',
    timeout: 120_000,
  }, async () => {
    const brief = await readBrief(`
host:
  kind: laminate
  layup: [0, 90, 0, 0, 90, 0]
  width: 10
  pocket: { made: drape, above: 3, height: 0.35, heights: [0.3, 0.4], film: 0.1 }
loads: { cure: { deltaT: -60 } }
channel: { wall: 0.09, edgeRadius: 0.08, largest: { width: 0.6, height: 0.4 } }
`);
    const [apart, together] = [reduceHeights(brief), reduceJoint(brief.joint, brief.channel)];
    expect(apart.heights!.models).toHaveLength(3);
    apart.heights!.models.forEach((model, k) => {
      const other = together.heights!.models[k]!;
      expect(Buffer.compare(encodeModel('same', model), encodeModel('same', other))).toBe(0);
    });
  });
});
