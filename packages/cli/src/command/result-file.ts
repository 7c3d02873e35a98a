import { type ChannelObjective, InputError, objectiveCosts, objectiveSizes } from '@lumenfront/core';
import { isJsonObject, readJsonFile } from '../files/index.js';

export interface ResultCase {
  readonly peak: number;
  readonly at: readonly [number, number];
  readonly least: number;
}

/** A design as `front` and `pick` write it with `--json`. */
export interface ResultDesign {
  readonly family: string;
  readonly parameters: Readonly<Record<string, number>>;
  readonly area: number;
  readonly peak: number;
  readonly cases: Readonly<Record<string, ResultCase>>;
  /** JSON's null on a plate, which has no border. */
  readonly wall: number | null;
  readonly minEdgeRadius: number;
  /** Where the design was solved by the independent mesh as well; shares of the largest hoop stress. */
  readonly meshed?: { readonly cases: Readonly<Record<string, { readonly peak: number; readonly error: number }>> };
  readonly difference?: { readonly cases: Readonly<Record<string, number>> };
}

export interface ResultFile {
  /** One for a pick. */
  readonly designs: readonly ResultDesign[];
  /** `conductance` is left out by what wrote none yet. */
  readonly reference?: {
    readonly area: number;
    readonly conductance?: number;
    readonly peak: number;
    readonly strength?: { readonly loadFactor: number; readonly retained: number };
  };
  readonly search?: {
    readonly seed?: number;
    readonly evaluations?: number;
    /** Left out by `pick`. */
    readonly objective?: ChannelObjective;
    readonly runs?: ReadonlyArray<{ readonly stop?: string }>;
  };
  readonly versions?: Readonly<Record<string, string>>;
}

const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);
const isPair = (value: unknown) => Array.isArray(value) && value.length === 2 && value.every(isNumber);
const every = (value: unknown, check: (entry: unknown) => boolean) =>
  isJsonObject(value) && Object.values(value).every(check);
const optional = (value: unknown, check: (value: unknown) => boolean) => value === undefined || check(value);

const isObjective = (value: unknown) =>
  isJsonObject(value) &&
  Object.values(objectiveSizes).some((size) => size === value.size) &&
  Object.values(objectiveCosts).some((cost) => cost === value.cost);

/** What must hold of a design, by key. */
const designChecks: Readonly<Record<keyof ResultDesign, readonly [(value: unknown) => boolean, expected: string]>> = {
  family: [(value) => typeof value === 'string', 'the name of an outline family'],
  parameters: [(value) => every(value, isNumber), 'numbers by name'],
  area: [(value) => isNumber(value) && value > 0, 'an area in mm²'],
  peak: [isNumber, 'a stress in MPa'],
  cases: [
    (value) =>
      every(value, (entry) => isJsonObject(entry) && isNumber(entry.peak) && isNumber(entry.least) && isPair(entry.at)),
    'peak, at and least by case',
  ],
  wall: [(value) => value === null || isNumber(value), 'a length in mm'],
  minEdgeRadius: [isNumber, 'a length in mm'],
  meshed: [
    (value) =>
      optional(
        value,
        () =>
          isJsonObject(value) &&
          every(value.cases, (entry) => isJsonObject(entry) && isNumber(entry.peak) && isNumber(entry.error)),
      ),
    'peak and error by case',
  ],
  difference: [
    (value) => optional(value, () => isJsonObject(value) && every(value.cases, isNumber)),
    'differences by case',
  ],
};

const fileChecks: Readonly<
  Record<Exclude<keyof ResultFile, 'designs'>, readonly [(value: unknown) => boolean, string]>
> = {
  reference: [
    (value) =>
      isJsonObject(value) &&
      isNumber(value.area) &&
      isNumber(value.peak) &&
      optional(value.conductance, isNumber) &&
      optional(value.strength, isJsonObject),
    'area, peak, conductance and strength',
  ],
  search: [
    (value) =>
      isJsonObject(value) &&
      optional(value.seed, isNumber) &&
      optional(value.evaluations, isNumber) &&
      optional(value.objective, isObjective) &&
      optional(
        value.runs,
        (runs) =>
          Array.isArray(runs) &&
          runs.every((run) => isJsonObject(run) && optional(run.stop, (stop) => typeof stop === 'string')),
      ),
    'seed, evaluations, objective and runs',
  ],
  versions: [(value) => every(value, (version) => typeof version === 'string'), 'texts by name'],
};

/**
 * What `front` or `pick` wrote with `--json`; keys beyond these are left alone.
 *
 * @throws InputError for any other file
 */
export function readResultFile(path: string): ResultFile {
  const content = readJsonFile(path, 'a result');
  const refuse = (place: string, expected: string, received: unknown) =>
    new InputError({
      path: place,
      file: path,
      expected,
      received: (JSON.stringify(received) ?? 'nothing').slice(0, 60),
      remedy: 'give what front or pick wrote with --json',
    });
  if (!isJsonObject(content)) throw refuse('result', 'an object', content);
  const designs = isJsonObject(content.design) ? [content.design] : content.designs;
  if (!Array.isArray(designs)) throw refuse('designs', 'a list of designs', content.designs);
  designs.forEach((design: unknown, i) => {
    if (!isJsonObject(design)) throw refuse(`designs[${i}]`, 'a design', design);
    for (const [key, [check, expected]] of Object.entries(designChecks))
      if (!check(design[key])) throw refuse(`designs[${i}].${key}`, expected, design[key]);
  });
  for (const [key, [check, expected]] of Object.entries(fileChecks))
    if (!optional(content[key], check)) throw refuse(key, expected, content[key]);
  return { ...content, designs } as unknown as ResultFile;
}
