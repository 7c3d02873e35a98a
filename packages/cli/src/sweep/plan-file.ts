import { briefSizeLimit, InputError, readBriefText, readPath, writePath } from '@lumenfront/core';
import type { RunKind } from '@lumenfront/optimizer';
import { isJsonObject, readTextFile } from '../files/index.js';
import type { Combination, Variation } from './plan.js';
import { expandValues, readValues } from './values.js';

/** What a plan file asks for. */
export interface PlanFile {
  readonly vary: readonly Variation[];
  readonly combine?: Combination;
  readonly run?: RunKind;
}

const choices = { combine: ['cross', 'zip'], run: ['pick', 'front'] } as const;
const keys = ['vary', ...Object.keys(choices)];

/**
 * Reads a plan, YAML or JSON: `vary` maps each path to a list, to one value, or to a text as `--vary` takes it; `combine` and
 * `run` stand for the options of these names.
 *
 * @throws InputError if there is no such file, or if it holds anything else
 */
export async function readPlanFile(file: string): Promise<PlanFile> {
  const { data, origin } = await readBriefText(readTextFile(file, { what: 'a plan', limit: briefSizeLimit }), { file });
  const refuse = (path: readonly string[], expected: string, received: unknown, remedy: string) => {
    const line = origin.lineOf?.(path);
    return new InputError({
      path: path.join('.') || 'plan',
      expected,
      received: (JSON.stringify(received) ?? 'nothing').slice(0, 60),
      remedy,
      file,
      ...(line === undefined ? {} : { line }),
    });
  };
  if (!isJsonObject(data))
    throw refuse([], `a mapping of ${keys.join(', ')}`, data, 'write vary: and paths with values below it');
  const unknown = Object.keys(data).find((key) => !keys.includes(key));
  if (unknown !== undefined) throw refuse([unknown], `one of the keys ${keys.join(', ')}`, unknown, 'remove it');
  for (const [key, words] of Object.entries(choices))
    if (data[key] !== undefined && !(words as readonly unknown[]).includes(data[key]))
      throw refuse([key], `one of ${words.join(', ')}`, data[key], 'choose one of these');
  if (data.vary !== undefined && !isJsonObject(data.vary))
    throw refuse(['vary'], 'a mapping of path to values', data.vary, 'write, for example, host.bendRadius: [4, 6, 8]');

  const vary: Variation[] = [];
  for (const [written, values] of Object.entries(data.vary ?? {})) {
    const place = `${file}: vary.${written}`;
    const { path, rest } = readPath(written, place);
    if (rest !== '' || isJsonObject(values))
      throw refuse(
        ['vary', written],
        'a path with a list of values',
        values ?? written,
        'write, for example, host.bendRadius: [4, 6, 8]',
      );
    const listed =
      typeof values === 'string'
        ? await readValues(values, place)
        : expandValues(Array.isArray(values) ? values : [values], place);
    vary.push({ path, values: listed, place: `${file}: vary.${writePath(path)}` });
  }
  return { ...(data as Pick<PlanFile, 'combine' | 'run'>), vary };
}
