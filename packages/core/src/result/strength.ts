import type { Zod } from '../input/index.js';
import {
  byName,
  figure,
  flag,
  group,
  listOf,
  type Of,
  placeOrNone,
  text,
  unbounded,
  undefinable,
  word,
} from './figure.js';

/** Where failure starts. */
function start(z: Zod) {
  return {
    place: text(z, 'Place where failure starts: edge, filler, arc-interface, …; none where nothing fails at any load.'),
    at: placeOrNone(z, 'Where failure starts.'),
  };
}

/** How clearly it starts there. */
function clearness(z: Zod) {
  return {
    clarity: z.exactOptional(
      undefinable(
        z,
        '1',
        'How clearly failure starts at one place: load factor of the place that fails next over that of the first.',
      ),
    ),
    next: z.exactOptional(text(z, 'The place that fails next; none where no other one fails.')),
  };
}

function reason(z: Zod) {
  return { reason: z.exactOptional(text(z, 'Why there is no share to retain, or nothing of it left.')) };
}

/** The same in a joint with its channel. */
function startBesideChannel(z: Zod) {
  return {
    ...start(z),
    fromEdge: z.exactOptional(
      undefinable(
        z,
        'mm',
        'Distance from the edge of the channel to where failure starts: 0 at the edge itself. A channel heals only what opens it.',
      ),
    ),
    crackPath: z.exactOptional(
      word(
        z,
        ['edge', 'straight', 'kinking', 'along'],
        'How a crack is taken to go from there: it stands at the channel, goes straight across the largest principal stress, kinks out of an interface towards the channel by its shear, or runs along an interface or plies. Left out where a ply splits or its fibres kink.',
      ),
    ),
    crackMeets: z.exactOptional(
      flag(
        z,
        'Whether a crack on that path meets the channel. Along an interface none does, as the channel keeps its wall; one that kinks may.',
      ),
    ),
    ...clearness(z),
  };
}

function failureStart(z: Zod) {
  return group(z, startBesideChannel(z), 'Where failure starts.');
}

/** Where failure starts, and at which load factor. */
export interface FailureStart extends Of<typeof failureStart> {}

/** The edge of a channel of known outline. */
function besideChannel<More extends Parameters<typeof group>[1]>(z: Zod, more: More, sentence: string) {
  const figures = {
    stress: figure(z, 'MPa', 'Largest tension along it with the loads as given.'),
    at: placeOrNone(z, 'Where.'),
    ...more,
  };
  return z.meta(z.exactOptional(group(z, figures, 'The edge of a channel of known outline.')), {
    description: sentence,
  });
}

function summary(z: Zod) {
  return {
    retained: undefinable(
      z,
      '1',
      'Least share of its strength without channel that the joint keeps, over the cases that scale loads (over all, where none does).',
    ),
    ...reason(z),
    loadFactor: unbounded(z, '1', 'Least load factor to first failure, over the cases.'),
    worstCase: text(z, 'The case of the least load factor.'),
    ...startBesideChannel(z),
    beside: besideChannel(
      z,
      { worstCase: text(z, 'The case of that tension.') },
      'Where it bears most: the edge of a channel of known outline beside this one, which no peak tells of; left out where there is none.',
    ),
  };
}

export function strengthSummary(z: Zod) {
  return group(z, summary(z), 'What the channel leaves of the joint.');
}

/** What a channel leaves of the joint over all cases, and where the joint fails first. */
export interface StrengthSummary extends Of<typeof strengthSummary> {}

function placeFactor(z: Zod) {
  return group(
    z,
    {
      factor: unbounded(z, '1', 'Load factor at which it fails first.'),
      place: text(z, 'The place.'),
      x: undefinable(z, 'mm', 'Where it fails first.'),
      y: undefinable(z, 'mm', 'Where it fails first.'),
    },
    'One place in one case.',
  );
}

/** Load factor at which one place fails, and where, mm. */
export interface PlaceFactor extends Of<typeof placeFactor> {}

function caseReport(z: Zod) {
  const places = listOf(z, placeFactor(z), 'The weakest place first.');
  const factor = unbounded(z, '1', 'Load factor to first failure.');
  return group(
    z,
    {
      ...startBesideChannel(z),
      scales: word(z, ['loads', 'cure'], 'What the load factor scales; the cure alone where nothing else acts.'),
      loadFactor: factor,
      retained: undefinable(z, '1', 'Share of the strength without channel.'),
      ...reason(z),
      places,
      beside: besideChannel(z, {}, 'The edge of a channel of known outline beside it; left out where there is none.'),
      withoutChannel: group(
        z,
        { ...start(z), ...clearness(z), loadFactor: factor, places },
        'The joint without channel.',
      ),
      fatigue: group(
        z,
        {
          ...start(z),
          life: unbounded(z, '1', 'Cycles to first failure at the loads as given.'),
          ratio: undefinable(z, '1', 'Life over that without channel.'),
        },
        'Constant amplitude at the loads as given.',
      ),
    },
    'Strength in one case.',
  );
}

/** Strength in one case. Factors are Infinity where nothing fails; see `CaseStrength` for what is scaled. */
export interface CaseReport extends Of<typeof caseReport> {}

function report(z: Zod) {
  return { ...summary(z), cases: byName(z, caseReport(z), 'Per case.') };
}

function strengthReport(z: Zod) {
  return group(z, report(z), 'Strength of the whole joint with the channel.');
}

/** Strength of the whole joint with one channel. */
export interface StrengthReport extends Of<typeof strengthReport> {}

export function checkedStrength(z: Zod) {
  return group(
    z,
    {
      ...report(z),
      cuspDistance: figure(z, 'mm', 'Places nearer to a tip of the filler were not judged.'),
      edge: z.meta(
        z.union([
          word(z, ['peak'], 'By its largest hoop tension.'),
          group(
            z,
            {
              distance: figure(z, 'mm', 'Characteristic distance off the edge.'),
              average: flag(z, 'The stress averaged over the distance; otherwise at its end.'),
            },
            'By the tension at a characteristic distance.',
          ),
        ]),
        { description: 'How the edge was judged.' },
      ),
    },
    'Strength of the whole joint with the channel, and how it was judged.',
  );
}

/** Strength of a checked joint, place by place. */
export interface CheckedStrength extends Of<typeof checkedStrength> {}
