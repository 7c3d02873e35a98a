import type { z } from 'zod/mini';
import { expectation, type ProblemList, quantity, section, userName, type Zod } from '../../input/index.js';
import { power } from '../../power.js';
import type { Lens, Pocket } from './laminate.js';

export const length = (z: Zod, sentence: string) => quantity(z, { unit: 'mm', above: 0, atMost: 10_000, sentence });

export const mostPlies = 80;

const ply = (z: Zod, sentence: string) =>
  quantity(z, { unit: '1', integer: true, atLeast: 1, atMost: mostPlies, sentence });

const resinName = (z: Zod) =>
  z.meta(z.default(userName(z), 'generic-epoxy-resin'), {
    description: 'Material of the pocket: unreinforced, or fibres along the channel.',
  });

const heightsField = (z: Zod, description: string) =>
  z.meta(
    z.optional(
      z.tuple([length(z, 'The least height.'), length(z, 'The largest.')], {
        error: () =>
          expectation('the least and the largest height of the preform, mm', 'write, for example, [0.3, 0.8]'),
      }),
    ),
    { description },
  );

const cutFields = (z: Zod, order: string) => ({
  made: z.meta(z.literal('cut'), { description: 'A slot is cut in plies and filled with resin around the channel.' }),
  resin: resinName(z),
  plies: z.meta(
    z.default(
      z.tuple([ply(z, 'The lowest number of a ply that is cut.'), ply(z, 'The highest.')], {
        error: () => expectation(`the lowest and the highest ply that is cut, ${order}`, 'write, for example, [6, 7]'),
      }),
      [6, 7],
    ),
    { description: `The lowest and the highest ply that is cut, ${order}.` },
  ),
  width: z.default(length(z, 'Width of the cut.'), 3),
  heights: heightsField(z, 'Not of a slot, which is as high as its plies.'),
});

const drapeFields = (z: Zod, order: string) => ({
  made: z.meta(z.literal('drape'), {
    description: 'Plies drape over a preform between two of them; resin fills what they leave at its sides.',
  }),
  resin: resinName(z),
  above: z.default(ply(z, `The preform lies above this ply, ${order}.`), 6),
  height: z.default(length(z, 'Height of the preform.'), 0.5),
  heights: heightsField(
    z,
    'The least and the largest height of the preform that a search may choose, mm: every channel lies in a pocket as high as it and the film on both sides of it. `length` and the usual reference are then those at `height`. Left out: the one height.',
  ),
  film: z.default(length(z, 'Thickness of the resin film between the preform and the plies.'), 0.04),
  flat: z.optional(
    length(
      z,
      'Width over which the plies run level: over a flat preform, or over several side by side, from the middle of the first to that of the last. `length` counts it. Left out: one round preform.',
    ),
  ),
  length: z.optional(
    length(
      z,
      'Length of the resin pocket from tip to tip, as a micrograph shows it. Default: what a beam of plies takes, 8 times its height at 0.5 mm, and `flat`.',
    ),
  ),
});

/** Section `pocket` of a host whose laminates count plies in this order; `more`: where in the host it lies. */
export function pocketUnion<More extends z.core.$ZodShape>(z: Zod, order: string, more: More) {
  return z.discriminatedUnion(
    'made',
    [
      section(z, { ...more, ...cutFields(z, order) }, 'A slot cut in plies.'),
      section(z, { ...more, ...drapeFields(z, order) }, 'A lens of resin that plies drape over.'),
    ],
    {
      error: (issue) =>
        issue.code === 'invalid_union'
          ? expectation('cut or drape', 'write made: cut for a slot in plies, made: drape for plies over a preform')
          : expectation('a mapping with made: cut or made: drape', 'say how the pocket is made'),
    },
  );
}

export type PocketFields = z.output<ReturnType<typeof pocketUnion<Record<never, never>>>>;

export const mm = (value: number) => `${Number(value.toPrecision(4))} mm`;

/** Below this share of the height of the pocket, the film between channel and plies is thinner than the model holds. */
const leastFilm = 0.03;

/** Least length over height of a lens: below it, plies would be steeper than a lens is modelled, 42 degrees. */
const leastLength = { 'both-flat': 5, 'bottom-flat': 7.2 } as const;

/** What holds a pocket: thicknesses of its plies from the bottom up, its faces, and from where its plies are counted in a brief. */
interface PocketBed {
  readonly thicknesses: readonly number[];
  readonly faces: Lens['faces'];
  readonly countedFrom: 'bottom' | 'top';
}

/** Adds problems where there can be no such pocket in its laminate; what is returned then stands in for it. */
export function resolvePocket(pocket: PocketFields, bed: PocketBed, problems: ProblemList): Pocket {
  return pocket.made === 'cut' ? resolveCut(pocket, bed, problems) : resolveDrape(pocket, bed, problems);
}

function resolveCut(
  { plies: [first, last], width, heights }: Extract<PocketFields, { made: 'cut' }>,
  { thicknesses, countedFrom }: PocketBed,
  problems: ProblemList,
): Pocket {
  if (heights !== undefined)
    problems.add(
      ['host', 'pocket', 'heights'],
      'no heights of a slot: it is as high as the plies that are cut',
      'leave it out and compare slots of more and fewer plies, or take made: drape',
    );
  const plies = thicknesses.length;
  const path = ['host', 'pocket', 'plies'] as const;
  if (first > last)
    problems.add(path, 'the lowest ply before the highest', `nothing is cut: write [${last}, ${first}]`);
  else if (first < 2 || last > plies - 1)
    problems.add(
      path,
      `plies 2 to ${plies - 1} of ${plies}: one stays below and one above the pocket`,
      'cut fewer plies, or add some outside: the pocket is deeper than the laminate',
    );
  const [from, to] = countedFrom === 'bottom' ? [first, last] : [plies + 1 - last, plies + 1 - first];
  // Where it cannot be, a pocket that stands in for it: of the only ply where there is but one.
  const low = Math.min(plies, Math.max(2, Math.min(from, plies - 1))) - 1;
  return { made: 'cut', first: low, count: Math.max(1, Math.min(to, plies - 1) - low), halfWidth: width / 2 };
}

function resolveDrape(
  { above, height: usual, heights, film, flat, length: given }: Extract<PocketFields, { made: 'drape' }>,
  { thicknesses, faces, countedFrom }: PocketBed,
  problems: ProblemList,
): Pocket {
  const plies = thicknesses.length;
  const isUp = countedFrom === 'bottom';
  const [least, most] = isUp ? [1, plies - 1] : [2, plies];
  const isPlaced = above >= least && above <= most;
  if (!isPlaced)
    problems.add(
      ['host', 'pocket', 'above'],
      `a ply with one ${isUp ? 'above' : 'over'} it: ${least} to ${most} of ${plies}`,
      'the preform lies between two plies',
    );
  const below = Math.max(1, Math.min(isUp ? above : plies + 1 - above, plies - 1));
  checkHeights(heights, problems);
  const [lowest, preform] = heights ?? [usual, usual];
  const path = ['host', 'pocket', ...(heights === undefined ? ['height'] : ['heights', 1])] as const;
  const height = preform + 2 * film;
  const nominal = usual + 2 * film;
  const sum = (list: readonly number[]) => list.reduce((total, one) => total + one, 0);
  const thickness = sum(thicknesses);
  const stack = Math.min(sum(thicknesses.slice(0, below)), sum(thicknesses.slice(below)));
  const room = faces === 'both-flat' ? stack : thickness;
  // Of what follows one from another only the first is told.
  const isTooHigh = isPlaced && !(height <= room);
  if (isTooHigh)
    problems.add(
      path,
      faces === 'both-flat'
        ? `with its film (2 x ${mm(film)}) at most ${mm(room)}: in a closed mould the thinner of both stacks gives way by half its thickness`
        : `with its film (2 x ${mm(film)}) at most ${mm(room)}, the thickness of the laminate`,
      'take a lower preform, place it nearer to the middle, or add plies: the pocket is deeper than the laminate',
      mm(height),
    );
  if (!(film >= leastFilm * height))
    problems.add(
      ['host', 'pocket', 'film'],
      `at least ${mm(leastFilm * height)}, ${100 * leastFilm} % of the height of the pocket: the model holds down to there`,
      'take a thicker film or a lower preform',
      mm(film),
    );
  if (heights !== undefined && flat !== undefined)
    problems.add(
      ['host', 'pocket', 'heights'],
      'one height where plies run level over several preforms or a flat one',
      'give height alone and compare several: sweep host.pocket.height, or leave flat out',
    );
  const length = given ?? usualLength(nominal, faces) + (flat ?? 0);
  // As the fourth root of the height.
  const shortest = leastLength[faces] * height * power(nominal / height, 0.25) + (flat ?? 0);
  if (!isTooHigh && !(length >= shortest))
    problems.add(
      ['host', 'pocket', 'length'],
      heights === undefined
        ? `at least ${mm(shortest)}, ${leastLength[faces]} times the height of the pocket (preform and film)${flat === undefined ? '' : ' and flat'}`
        : `at least ${mm(shortest)}: at the largest height, ${leastLength[faces]} times that of the pocket (preform and film)`,
      'plies do not drape so steeply: measure it from tip to tip, or leave it out',
      mm(length),
    );
  return {
    made: 'drape',
    below,
    height: nominal,
    halfLength: length / 2,
    ...(flat === undefined ? {} : { flat: flat / 2 }),
    faces,
    ...(heights === undefined ? {} : { follows: { least: lowest + 2 * film, most: height, film } }),
  };
}

/** Largest height over the least: each e times it takes three more heights that are solved. */
const mostRatio = 4;

function checkHeights(heights: readonly [number, number] | undefined, problems: ProblemList): void {
  if (heights === undefined) return;
  const [least, most] = heights;
  const path = ['host', 'pocket', 'heights'] as const;
  if (!(least < most)) problems.add(path, 'the least height before the largest', 'for one height write height');
  else if (!(most <= mostRatio * least))
    problems.add(
      path,
      `a largest height of at most ${mostRatio} times the least`,
      'narrow the range, or search it in parts',
    );
}

/** Plies as a beam: as the fourth root of what they are lifted by (see `pocket.ts`), 4 mm at a pocket of 0.5 mm that both sides give way to. */
function usualLength(height: number, faces: Lens['faces']): number {
  const lifted = faces === 'both-flat' ? height / 2 : height;
  return 4 * power(lifted / 0.25, 0.25);
}
