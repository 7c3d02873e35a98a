import { expectation, type Zod } from '../input/index.js';
import { byName, figure, group, listOf, refuse, text } from './figure.js';

/** Of every result; raised whenever a key that was there changes its meaning or goes. */
export const formatVersion = 1;

/** What every result says first: which result it is, in which form, of which brief, made by what. */
export function header<const Kind extends string>(z: Zod, kind: Kind) {
  return {
    ...mark(z, kind),
    title: text(z, 'Title of the brief.'),
    brief: z.exactOptional(origin(z)),
    materials: z.exactOptional(usedMaterials(z)),
    cautions: listOf(z, text(z, 'One sentence.'), 'What is allowed but should be known.'),
    versions: byName(z, text(z, 'A version.'), 'What the result was made with.'),
  };
}

/** Left out in results that were written before it was told. */
function usedMaterials(z: Zod) {
  const material = group(
    z,
    {
      name: text(z, 'Name in the brief, or of the built-in material.'),
      at: listOf(z, text(z, 'A part of the host.'), 'Where it is used.'),
      source: z.meta(z.enum(['own', 'built-in', 'default'], { error: refuse('own, built-in or default') }), {
        description: "The brief's own values, built-in ones that it names, or built-in ones where it names none.",
      }),
    },
    'A material that the brief uses.',
  );
  return listOf(z, material, 'Materials, where they are used, and whose values they are.');
}

/** Results that were written before they said so have neither: they are known by their keys. */
export function mark<const Kind extends string>(z: Zod, kind: Kind) {
  return {
    kind: z.meta(
      z.exactOptional(
        z.literal(kind, {
          error: () => expectation(`a result of the kind ${kind}`, `give a result of the kind ${kind}`),
        }),
      ),
      { description: 'Which result this is.' },
    ),
    formatVersion: z.meta(
      z.exactOptional(
        z.literal(formatVersion, {
          error: () => expectation(`format version ${formatVersion}`, 'use the version of the program that wrote it'),
        }),
      ),
      { description: 'Version of the form of this result.' },
    ),
  };
}

function origin(z: Zod) {
  return group(
    z,
    {
      fingerprint: text(
        z,
        'SHA-256 of what decides the figures of a channel, as canonical JSON: equal for equal briefs.',
      ),
      decides: byName(
        z,
        z.unknown(),
        'What of the resolved brief decides the figures of a channel: joint, loads, cases, how strength is judged. Units: mm, N, MPa, K; degrees.',
      ),
    },
    'The brief that this is a result of.',
  );
}

export const seed = (z: Zod) => figure(z, '1', 'Seed of the random numbers.');
export const allow = (z: Zod) => figure(z, 'MPa', 'Allowed peak stress at the edge of the channel.');
