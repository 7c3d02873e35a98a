import type { Zod } from '../input/index.js';
import { choice, design } from './design.js';
import { byName, figure, group, listOf, type Of, refuse, text, unbounded, undefinable, word } from './figure.js';
import { allow, header, seed } from './header.js';
import { search } from './search.js';

/** What a front trades. */
export function objective(z: Zod) {
  return group(
    z,
    {
      size: z.meta(
        z.transform(z.enum(['area', 'conductance', 'flow'], { error: refuse('one of area, conductance') }), (size) =>
          size === 'flow' ? 'conductance' : size,
        ),
        { description: 'What it makes large: area, mm², or conductance, mm⁴, which older results call flow.' },
      ),
      cost: word(
        z,
        ['peak', 'loadFactor', 'strengthRetained'],
        'What it trades for it: peak edge stress, MPa; one over the load factor to first failure; or one over the share of strength retained.',
      ),
    },
    'What the front trades.',
  );
}

function referencePoint(z: Zod) {
  return z.meta(z.tuple([figure(z, 'mm² or mm⁴', 'Size.'), figure(z, 'MPa or 1', 'Cost.')]), {
    description:
      'Size and cost that a hypervolume is measured from: nothing, and three times the cost of the reference channel, so that any two fronts of a brief can be compared.',
  });
}

function repeats(z: Zod) {
  const volume = (sentence: string) => figure(z, 'size times cost', sentence);
  return group(
    z,
    {
      referencePoint: referencePoint(z),
      seeds: listOf(
        z,
        group(z, { seed: seed(z), hypervolume: volume('Hypervolume of its front.') }, 'One search.'),
        'Every search.',
      ),
      least: volume('Least hypervolume.'),
      median: volume('Median hypervolume.'),
      most: volume('Largest hypervolume.'),
    },
    'Hypervolumes of fronts that differ in their seed, against a common reference point.',
  );
}

/** Hypervolumes of fronts that differ in their seed, against a common reference point. */
export interface RepeatsDocument extends Of<typeof repeats> {}

function compared(z: Zod) {
  const best = (sentence: string) =>
    group(
      z,
      {
        area: figure(z, 'mm²', 'Area of the channel, or of both of a pair; of a row in a metre of width.'),
        conductance: figure(z, 'mm⁴', 'The same of the conductance.'),
        peak: figure(z, 'MPa', 'Peak hoop tension of the worst case.'),
        loadFactor: z.exactOptional(unbounded(z, '1', 'Load factor to first failure; left out on a plate.')),
        retained: z.exactOptional(undefinable(z, '1', 'Share of the strength that is retained; left out on a plate.')),
        design: z.exactOptional(figure(z, '1', 'Its number on the front, from 1; left out where it is not on it.')),
      },
      sentence,
    );
  return group(
    z,
    {
      choice: choice(z),
      designs: figure(z, '1', 'Designs of the front that are of this choice.'),
      largest: z.exactOptional(
        best(
          'The largest channel within the allowed peak, or one that bears the loads as given where a front trades strength; left out where there is none.',
        ),
      ),
      leastCost: z.exactOptional(
        best('The one of the least peak, or of the largest load factor or strength retained.'),
      ),
      front: z.exactOptional(
        listOf(
          z,
          best('One channel of it.'),
          'The front of this choice by itself, by growing size; left out by older versions and where none was found.',
        ),
      ),
      evaluations: figure(z, '1', 'Outlines that were evaluated.'),
      unmet: z.exactOptional(text(z, 'Why no channel was found; left out where one was.')),
    },
    'What was found with one choice.',
  );
}

/** What was found with one choice. */
export interface ComparedChoice extends Of<typeof compared> {}

function byItself(z: Zod) {
  return group(
    z,
    {
      load: text(z, 'Name of the load; it acts as given in the brief, and nothing else does.'),
      leastCost: z.meta(z.exactOptional(design(z)), {
        description: 'The one of the least cost; left out where no channel was found.',
      }),
      largest: z.meta(z.exactOptional(design(z)), {
        description: 'The largest that is admissible, as `choices[].largest`; left out where there is none.',
      }),
      evaluations: figure(z, '1', 'Outlines that were evaluated.'),
      unmet: z.exactOptional(text(z, 'Why no channel was found; left out where one was.')),
    },
    'What was found for one load by itself.',
  );
}

/** What was found for one load by itself. */
export interface LoadByItself extends Of<typeof byItself> {}

export function front(z: Zod) {
  return group(
    z,
    {
      ...header(z, 'front'),
      designs: listOf(
        z,
        design(z),
        'Best over all families: none has both more of the size and less of the cost. By growing size.',
      ),
      families: byName(z, listOf(z, design(z), 'By growing size.'), 'The front that each family has by itself.'),
      reference: z.meta(design(z), { description: 'The reference channel; with the first choice.' }),
      choices: z.exactOptional(
        listOf(z, compared(z), 'What the brief leaves open, side by side; left out where nothing is open.'),
      ),
      eachLoad: z.exactOptional(
        listOf(z, byItself(z), 'Which outline each load asks for by itself; left out where that was not asked.'),
      ),
      allow: allow(z),
      search: group(
        z,
        {
          ...search(z),
          objective: objective(z),
          hypervolume: figure(z, 'size times cost', 'Of the searched front, against the reference point.'),
          referencePoint: referencePoint(z),
          repeats: z.meta(z.exactOptional(repeats(z)), {
            description: 'Where the search was repeated with other seeds.',
          }),
        },
        'How the search went.',
      ),
    },
    'The result of front.',
  );
}

/** The result of `front`. */
export interface FrontDocument extends Of<typeof front> {}
