import {
  briefSizeLimit,
  InputError,
  type ResolvedBrief,
  readBriefText,
  resolveBrief,
  starterBrief,
  withValue,
  writePath,
} from '@lumenfront/core';
import { openCase, type RunKind, type SweepCase } from '@lumenfront/optimizer';
import { readTextFile, textsBeside } from '../files/index.js';
import { checkPath, combine, readPlanFile, readVariation } from '../sweep/index.js';

export interface PlanOptions {
  readonly vary?: readonly string[];
  readonly plan?: string;
  readonly zip?: boolean;
  readonly run?: RunKind;
  readonly seed?: number;
}

/** What a sweep is going to do. */
export interface SweepPlan {
  readonly title: string;
  readonly kind: RunKind;
  /** Of the varied values that have one, by path. */
  readonly units: Readonly<Record<string, string>>;
  readonly cases: readonly SweepCase[];
}

/**
 * The cases of a sweep, as command line and plan file ask for them together.
 *
 * @param file of the brief (without it: the starter brief)
 * @throws InputError if brief, plan or options make no sense, and if not a single case has a sound brief
 */
export async function planCases(file: string | undefined, options: PlanOptions, version: string): Promise<SweepPlan> {
  const name = file ?? 'starter brief';
  const text = file === undefined ? starterBrief : readTextFile(file, { what: 'a brief', limit: briefSizeLimit });
  const { data: written, origin } = await readBriefText(text, { file: name });
  const data = options.seed === undefined ? written : withValue(written, ['search', 'seed'], options.seed);
  const plan = options.plan === undefined ? { vary: [] } : await readPlanFile(options.plan);
  const variations = [...plan.vary, ...(await Promise.all((options.vary ?? []).map(readVariation)))];
  const variants = await combine(data, variations, options.zip ? 'zip' : (plan.combine ?? 'cross'));
  const kind = options.run ?? plan.run ?? 'pick';
  const units: Record<string, string> = {};
  for (const { path, place } of variations) {
    const unit = await checkPath(path, data, place);
    if (unit !== undefined) units[writePath(path)] = unit;
  }
  const textOf = textsBeside(file);
  const cases: SweepCase[] = [];
  for (const variant of variants) cases.push(await openCase(variant, kind, version, textOf));
  const sound = cases.find(({ brief }) => !(brief instanceof InputError));
  // Then it is the brief, or every value: better said at once, with file and line.
  if (sound === undefined) await resolveBrief(variants[0]!.data, { ...origin, textOf });
  return { title: (sound!.brief as ResolvedBrief).title, kind, units, cases };
}
