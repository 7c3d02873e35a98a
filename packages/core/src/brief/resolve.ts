import { loadSeldom } from '#seldom';
import { InputError } from '../errors.js';
import { briefKinds, type Host, hostOf, loadAllHosts, loadsOf } from '../host/index.js';
import { type BriefOrigin, ProblemList } from '../input/index.js';
import { checkEffort } from './effort.js';
import {
  implausibleAllow,
  implausibleChannel,
  implausibleDelivery,
  implausibleLoads,
  implausibleMaterials,
  longSearches,
} from './plausible/index.js';
import { readBriefText } from './read.js';
import { resolveChannel } from './resolve-channel.js';
import { resolveDelivery } from './resolve-delivery.js';
import { idleKeys } from './resolve-group.js';
import { cureCautions, resolveCases, resolveLoads } from './resolve-loads.js';
import { openMaterialBook } from './resolve-materials.js';
import { resolveRow } from './resolve-row.js';
import { resolveSearch } from './resolve-search.js';
import { resolveStrength } from './resolve-strength.js';
import type { BriefChoice, ChoiceValues, ResolvedBrief } from './resolved.js';
import { type BriefData, loadSchema } from './schema.js';

/**
 * Reads and resolves the text of a brief, YAML or JSON.
 *
 * @param options.file name for messages
 * @param options.textOf text of a file that the brief names (the mesh of a section), by its name there
 * @throws InputError with every problem found, each with file, line, path, what was expected and received, and a remedy
 */
export async function readBrief(
  text: string,
  options: Pick<BriefOrigin, 'file' | 'textOf'> = {},
): Promise<ResolvedBrief> {
  const { data, origin } = await readBriefText(text, options);
  const { textOf } = options;
  return resolveBrief(data, textOf === undefined ? origin : { ...origin, textOf });
}

/**
 * Checks the data of a brief against the schema and against geometry, and turns it into joint, loads, cases and wishes.
 *
 * @throws InputError with every problem found; sections that are sound are checked further even if others are not
 */
export async function resolveBrief(data: unknown, origin: BriefOrigin = {}): Promise<ResolvedBrief> {
  const isOpen = typeof data === 'object' && data !== null && (data as { choices?: unknown }).choices !== undefined;
  const resolve = () => (isOpen ? resolveChoices(data, origin) : resolveOne(data, origin));
  try {
    return await resolve();
  } catch (error) {
    // Messages say which other kinds of host take what is written; kinds that come on demand are fetched for that.
    if (!(error instanceof InputError) || !(await loadAllHosts())) throw error;
    return resolve();
  }
}

/** Every combination of what a brief leaves open. */
async function resolveChoices(data: object, origin: BriefOrigin): Promise<ResolvedBrief> {
  const { briefOfChoices, openChoices, originOf, problemsOfChoices, soundSections } = await loadSeldom();
  const { choices } = soundSections(await loadSchema(data), data);
  // Whatever else is wrong with it is told beside the faulty section.
  if (choices === undefined) return resolveOne(data, origin);
  const resolved: BriefChoice[] = [];
  const failed: { readonly values: ChoiceValues; readonly error: InputError }[] = [];
  const all = openChoices(data, choices, origin);
  for (const one of all) {
    const { values } = one;
    try {
      resolved.push({ values, brief: await resolveOne(one.data, originOf(origin, one)) });
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      failed.push({ values, error });
    }
  }
  if (failed.length > 0) throw problemsOfChoices(failed, all.length);
  return briefOfChoices(resolved, origin);
}

async function resolveOne(data: unknown, origin: BriefOrigin): Promise<ResolvedBrief> {
  const schema = await loadSchema(data);
  const problems = new ProblemList(data, origin);
  const whole = schema.safeParse(data);
  if (!whole.success) problems.addIssues((await loadSeldom()).withOwnLoads(whole.error.issues, data));
  const ofSchema = problems.problems.length;
  const sections = whole.success ? whole.data : (await loadSeldom()).soundSections(schema, data);
  const { brief, around } = resolveSections(sections, problems);
  if (brief !== undefined && problems.problems.length === 0) return brief;
  const { soundEntries, tellBeside } = await loadSeldom();
  throw tellBeside(problems, ofSchema, { ...sections, ...soundEntries(schema, data) }, around);
}

interface Resolved {
  readonly brief?: ResolvedBrief;
  readonly around?: Host | undefined;
}

function resolveSections(brief: Partial<BriefData>, problems: ProblemList): Resolved {
  const { title, host, materials, loads, cases, channel, channels, allow, search, delivery, strength, scatter } = brief;
  const book = openMaterialBook(materials, problems);
  const kind = host && briefKinds().find((one) => one.kind === host.kind);
  const section = kind?.resolve(host!, book, problems);
  const acting = loads && resolveLoads(loads, host, problems);
  const joint =
    section && channels && resolveRow(channels, { kind: kind!, joint: section, loads: acting ?? {} }, problems);
  const around = joint && hostOf(joint);
  const areLeftOut = cases === undefined && !problems.isGiven(['cases']);
  const combined = acting && (cases || areLeftOut) ? resolveCases(cases, acting, problems) : undefined;
  // What a stand-in for a host leaves room for says nothing.
  const isSound = problems.problems.every(({ path }) => !/^host(?!.*\.(ply|resin|material)$)/.test(path));
  const wish = channel && channels && resolveChannel(channel, channels, isSound ? around : undefined, problems);
  if (around && wish && problems.problems.length === 0) checkEffort(around, wish, problems);
  const carried = delivery && acting && combined && resolveDelivery(delivery, acting, combined, problems);
  const judged = strength && resolveStrength(strength, around, problems);
  if (title === undefined || !joint || !around || !acting || !combined || !wish) return { around };
  if (!search || !carried || !judged || !scatter) return { around };
  const limit = allow ?? around.material.transverseTension;
  const resolved = {
    title,
    joint,
    loads: acting,
    cases: combined,
    channel: wish,
    allow: limit,
    search: resolveSearch(search),
    delivery: carried,
    strength: judged,
    scatter,
    materials: book.used(),
    cautions: [
      ...book.cautions(),
      ...implausibleMaterials(materials ?? {}),
      ...kind!.doubts(host!),
      ...implausibleLoads(acting, combined, loadsOf(joint), (path) => problems.isGiven(path)),
      ...cureCautions(acting, combined),
      ...idleKeys(channels, (path) => problems.isGiven(path)),
      ...implausibleChannel(channel, strength, scatter),
      ...implausibleAllow(limit, around.material),
      ...implausibleDelivery(carried),
      ...longSearches(search.evaluations, scatter.samples, combined.length),
    ],
  };
  return { brief: resolved, around };
}
