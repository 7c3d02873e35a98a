import { InputError, type InputProblem } from '../errors.js';
import { briefKinds, type Host, hostLoads, type Loads, loadsOf } from '../host/index.js';
import { type ProblemList, valueAt } from '../input/index.js';
import { implausibleAllow, implausibleChannel, implausibleMaterials, implausibleSizes } from './plausible/index.js';
import type { BriefData, BriefSchema } from './schema.js';

/** Of a faulty brief, the sections that are sound on their own. */
export function soundSections(schema: BriefSchema, data: unknown): Partial<BriefData> {
  if (typeof data !== 'object' || data === null) return {};
  const sound = Object.entries(schema.shape).flatMap(([key, part]) => {
    const parsed = part.safeParse((data as Record<string, unknown>)[key]);
    return parsed.success ? [[key, parsed.data]] : [];
  });
  return Object.fromEntries(sound) as Partial<BriefData>;
}

/** Materials and loads that are sound on their own, whatever stands beside them. */
export function soundEntries(schema: BriefSchema, data: unknown): Pick<BriefData, 'materials' | 'loads'> {
  const of = (section: 'materials' | 'loads') => {
    const written = valueAt(data, [section]);
    const entries = typeof written === 'object' && written !== null ? Object.entries(written) : [];
    const sound = entries.map(([name, entry]) => schema.shape[section].safeParse({ [name]: entry }));
    return Object.assign({}, ...sound.map((parsed) => parsed.data));
  };
  return { materials: of('materials'), loads: of('loads') };
}

/**
 * What is wrong with a brief, and what is hardly meant in its sound parts; one mistake is told once: what is refused already, or is why
 * something does not fit, is no caution as well.
 *
 * @param ofSchema how many of the problems are of the schema
 * @param around the host, as far as it could be made: of stand-ins where it is faulty itself
 */
export function tellBeside(
  { problems }: ProblemList,
  ofSchema: number,
  sound: Partial<BriefData>,
  around?: Host,
): InputError {
  const { host, materials = {}, loads = {}, channel, strength, scatter, allow } = sound;
  const kind = briefKinds().find((one) => one.kind === host?.kind);
  const ofHost = kind?.doubts(host!) ?? [];
  const told = withReasons(
    problems,
    ofSchema,
    ofHost.filter((doubt) => doubt.includes('Then write')),
  );
  const isStandIn = problems.some(({ path }) => /^(host|materials)\b/.test(path));
  const doubts = [
    ...implausibleMaterials(materials),
    ...ofHost,
    ...implausibleSizes(loads as Loads, host === undefined ? hostLoads() : loadsOf(host)),
    ...(channel && strength && scatter ? implausibleChannel(channel, strength, scatter) : []),
    ...(allow === undefined || around === undefined || isStandIn ? [] : implausibleAllow(allow, around.material)),
  ];
  const isTold = (doubt: string) =>
    told.some(({ path, remedy }) => doubt.startsWith(`${path}:`) || remedy.includes(doubt));
  return new InputError(
    told,
    doubts.filter((doubt) => !isTold(doubt)),
  );
}

/** Lengths of a host in another unit are why things do not fit in it: told in the place of all that does not. */
function withReasons(problems: readonly InputProblem[], ofSchema: number, reasons: readonly string[]): InputProblem[] {
  const isMisfit = ({ path, expected }: InputProblem, i: number) =>
    i >= ofSchema && /^(host|channel)/.test(path) && /\bmm\b|triangles/.test(expected);
  const first = problems.findIndex(isMisfit);
  if (reasons.length === 0 || first < 0) return [...problems];
  return problems.flatMap((problem, i) => {
    if (!isMisfit(problem, i)) return [problem];
    return i === first ? [{ ...problem, remedy: reasons.join('; ') }] : [];
  });
}
