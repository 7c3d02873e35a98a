import type { z } from 'zod/mini';
import {
  type BriefKind,
  briefKinds,
  hostKinds,
  hostLoads,
  type Joint,
  type LoadDefinition,
  loadHostOfBrief,
  loadsOf,
} from '../host/index.js';
import { jsonSchemaOf, loadSchemaLibrary, quantity, section, textLine, type Zod } from '../input/index.js';
import { channelSection } from './section/channel.js';
import { channelsSection } from './section/channels.js';
import { choicesSection } from './section/choices.js';
import { deliverySection } from './section/delivery.js';
import { hostSection } from './section/host.js';
import { casesSection, loadsSection } from './section/loads.js';
import { materialsSection } from './section/materials.js';
import { scatterSection } from './section/scatter.js';
import { searchSection } from './section/search.js';
import { strengthSection } from './section/strength.js';

/** The whole brief; a further section is one file in `section/` and one line here. */
function buildSchema(z: Zod, own: readonly LoadDefinition[] = []) {
  const known = [...new Map([...hostLoads(), ...own].map((load) => [load.name, load])).values()];
  return section(
    z,
    {
      title: z.default(textLine(z, 200, 'What this brief is about, one line.'), 'Untitled brief'),
      host: hostSection(z),
      materials: materialsSection(z),
      loads: loadsSection(z, known),
      cases: casesSection(z, known),
      channel: channelSection(z),
      channels: channelsSection(z),
      choices: choicesSection(z),
      allow: z.optional(
        quantity(z, {
          unit: 'MPa',
          above: 0,
          atMost: 10_000,
          sentence:
            'Allowed peak stress at the edge of the channel. Default: the transverse strength of the material around it.',
        }),
      ),
      search: searchSection(z),
      delivery: deliverySection(z),
      strength: strengthSection(z),
      scatter: scatterSection(z),
    },
    'A brief: which joint, which loads, which channels.',
  );
}

export type BriefSchema = ReturnType<typeof buildSchema>;

/** A brief after the schema: checked types and ranges, defaults filled in. */
export type BriefData = z.output<BriefSchema>;

let loaded: { readonly kinds: readonly BriefKind[]; readonly ready: Promise<BriefSchema> } | undefined;

/**
 * Made on first use, and anew once a further kind of host is known; for a brief whose host names loads itself, with those.
 *
 * @param data of the brief, as it is written
 */
export async function loadSchema(data?: unknown): Promise<BriefSchema> {
  await loadHostOfBrief(hostIn(data));
  const own = ownLoads(data);
  if (own.length > 0) return buildSchema(await loadSchemaLibrary(), own);
  const kinds = briefKinds();
  const isSame =
    kinds.length === loaded?.kinds.length && kinds.every(({ section }, i) => section === loaded!.kinds[i]!.section);
  if (!isSame)
    loaded = {
      kinds,
      ready: loadSchemaLibrary().then((z) => buildSchema(z)),
    };
  return loaded!.ready;
}

/** Loads that the host of a brief names itself, whatever else is wrong with it. */
function ownLoads(data: unknown): readonly LoadDefinition[] {
  const host = hostIn(data);
  const known = hostKinds().find((one) => one.kind === host?.kind);
  return known?.ownLoads === undefined ? [] : loadsOf(host as Joint).slice(known.loads.length);
}

function hostIn(data: unknown): { readonly kind?: unknown } | undefined {
  const host = typeof data === 'object' && data !== null ? (data as { host?: unknown }).host : undefined;
  return typeof host === 'object' && host !== null ? host : undefined;
}

/**
 * The brief as JSON Schema (draft 2020-12) for editors; `unit` is an extra keyword beside range and default.
 *
 * @param data of a brief, whose own loads the schema then knows
 */
export async function briefSchema(data?: unknown): Promise<Record<string, unknown>> {
  return { ...(await jsonSchemaOf(await loadSchema(data))), title: 'lumenfront brief' };
}
