import { kinds } from '#kinds';
import { loaders } from '#loaders';
import { InputError } from '../errors.js';
import type { Border } from '../outline/index.js';
import type { Host, HostKind, Joint, KnownKind } from './contract.js';
import type { LoadDefinition } from './load.js';
import type { PlaceDefinition } from './place.js';
import type { ReducedModel } from './reduced-model.js';

const known = new Map<string, KnownKind>(Object.entries<HostKind>(kinds));

/**
 * Makes one more kind of host known: to briefs, searches, reports and drawings of this thread from now on. Worker threads are
 * threads of their own: what a module registers that Node is started with (`node --import MODULE`) they know as well. Registering the same one again does nothing.
 *
 * Briefs need how they tell of it (`HostBrief`), meshes its check (`HostCheck`): one object holds all, or a later one adds to the same kind.
 *
 * A bundle under the condition `lumenfront-named-hosts` (`conditions` of esbuild, `resolve.conditions` of others) holds no kind of its own:
 * register those it is to hold before anything else, each with what is asked of it: `registerHost({ ...teeHost, ...teeBrief, ...teeCheck })`. A tee
 * that knows no pockets is `{ ...fillerTeeHost, ...fillerTeeBrief }`; `teeHost` may take its place later.
 *
 * Throws an Error where another of that kind is known already, or it defines a load or a place otherwise than another kind of that name.
 */
export function registerHost(host: KnownKind): void {
  const before = known.get(host.kind);
  if (before !== undefined && before.open !== host.open) {
    if (host.part !== undefined && before.part === undefined) return;
    if (before.part === undefined) throw new Error(`host kind ${host.kind} is known already`);
  } else if (before !== undefined) {
    known.set(host.kind, { ...before, ...host });
    return;
  }
  for (const load of host.loads) {
    const other = hostLoads().find(({ name }) => name === load.name);
    if (other !== undefined && JSON.stringify(other) !== JSON.stringify(load))
      throw new Error(`host kind ${host.kind}: another kind defines the load ${load.name} otherwise`);
  }
  for (const [name, { label }] of Object.entries(host.places))
    if ((findPlace(name)?.label ?? label) !== label)
      throw new Error(`host kind ${host.kind}: another kind calls the place ${name} otherwise`);
  known.set(host.kind, host);
}

/**
 * Makes a built-in kind known where each is a part of a bundle by itself: under the conditions `browser` and `production` (or `development`), which bundlers of whole
 * pages set, or under `lumenfront-hosts-on-demand`; not under `lumenfront-all-hosts`. Whoever reads a brief need not: reading loads what it names. A page or worker that is handed a joint, a task or a model does, before anything
 * else: `await loadHost(task.joint)`. Does nothing elsewhere, for what is known, or for a kind that is not built in.
 *
 * @param host a joint gets what it needs; the name of a kind, all of it
 */
export async function loadHost(host: string | Joint): Promise<void> {
  if (isHostLoaded(host)) return;
  const joint = typeof host === 'string' ? undefined : host;
  const kind = joint?.kind ?? (host as string);
  // Whoever needs another part than is known gets the whole kind, which knows both.
  registerHost(await loaders[kind]!(known.has(kind) ? undefined : joint));
}

/** Whether there is nothing to load for a joint, or for all of a kind. */
export function isHostLoaded(host: string | Joint): boolean {
  const kind = typeof host === 'string' ? host : host.kind;
  const found = known.get(kind);
  if (found === undefined) return !Object.hasOwn(loaders, kind);
  return found.part === undefined || (typeof host !== 'string' && found.part(host));
}

/** Loads what the host of a brief needs; all there is where it names no kind, so that schema and messages tell of all. */
export async function loadHostOfBrief(host: { readonly kind?: unknown } | undefined): Promise<void> {
  const kind = host?.kind;
  if (typeof kind === 'string' && (known.has(kind) || Object.hasOwn(loaders, kind))) return loadHost(host as Joint);
  await loadAllHosts();
}

/** Whether there was anything left to load. */
export async function loadAllHosts(): Promise<boolean> {
  const before = [...known.values()];
  for (const each of Object.keys(loaders)) await loadHost(each);
  return [...known.values()].some((one) => !before.includes(one));
}

/** All kinds of host, the built-in ones first. */
export function hostKinds(): readonly KnownKind[] {
  return [...known.values()];
}

/** The kind of a host. Throws InputError for one that is not known in this thread. */
export function hostKind(kind: string): KnownKind {
  const found = known.get(kind);
  if (found === undefined)
    throw new InputError({
      path: 'host.kind',
      expected: `one of ${[...new Set([...known.keys(), ...Object.keys(loaders)])].join(', ')}`,
      received: kind,
      remedy: Object.hasOwn(loaders, kind)
        ? `it is loaded on demand here: await loadHost('${kind}') first, or loadHost(joint), in every thread`
        : 'register that kind in worker threads as well: put registerHost into a module and start with node --import MODULE, or take one worker',
    });
  return found;
}

/** The host of a joint: all that is particular to it. */
export function hostOf(joint: Joint): Host {
  return hostKind(joint.kind).open(joint);
}

/** Loads of one joint, or of the host of a brief as it is written: those of its kind and its own. */
export function loadsOf(host: Joint): readonly LoadDefinition[] {
  const { loads, ownLoads } = hostKind(host.kind);
  return [...loads, ...(ownLoads?.(host) ?? [])];
}

/** Definitions of every load of any host, each once; those that a joint names itself are left out. */
export function hostLoads(): readonly LoadDefinition[] {
  return [...new Map(hostKinds().flatMap(({ loads }) => loads.map((load) => [load.name, load]))).values()];
}

/** A place of any host, as an engineer says it; `edge` is that of the channel, `none` where nothing fails. */
export function placeLabel(place: string): string {
  if (place === 'edge') return 'channel edge';
  return place === 'none' ? 'nowhere' : (findPlace(place)?.label ?? place);
}

function findPlace(name: string): PlaceDefinition | undefined {
  return hostKinds().find(({ places }) => Object.hasOwn(places, name))?.places[name];
}

/** The place that splits at points of a place: at an interface, what lies inside it. */
export function splitsAt(kind: string, place: string): string {
  return hostKind(kind).places[place]?.between?.[0].place ?? place;
}

/** Whether a place is the edge of a channel of known outline. */
export function isEdge(kind: string, place: string): boolean {
  return hostKind(kind).places[place]?.isEdge === true;
}

/** Whether a place lies between two materials. */
export function isInterface(kind: string, place: string): boolean {
  return hostKind(kind).places[place]?.between !== undefined;
}

const nowhere: Border = { distance: () => Number.POSITIVE_INFINITY };

/** The border inside which a reduced model holds: its control contour; none where it holds everywhere. */
export function modelBorder({ kind, contour }: Pick<ReducedModel, 'kind' | 'contour'>): Border {
  return contour === undefined ? nowhere : hostKind(kind).contour(contour);
}
