import { doubtsAbout, tellDoubts } from '../input/index.js';
import type { Quantity } from '../quantity.js';

/** A load of a host: what a user may let act on it, and how large. Every load is linear and solved as unit loads, one per size. */
export interface LoadDefinition {
  readonly name: string;
  /** One sentence for a user. */
  readonly sentence: string;
  /** The numbers that give its size: unit, range, meaning and what stands for a number that is left out. */
  readonly sizes: Readonly<Record<string, Quantity & { readonly default: number }>>;
  /** For a message that proposes it: `{ force: 100 }`. */
  readonly example: string;
  /** What hardly can be meant in its sizes, one sentence each. */
  readonly doubts?: (sizes: LoadSizes) => readonly string[];
}

/** Size of a load: one number for each of those that its definition names. */
export type LoadSizes = Readonly<Record<string, number>>;

/** Name of a load: one that the host of the joint defines. */
export type LoadName = string;

/** What acts on a joint: the sizes of each load, `{ pull: { force: 20 } }`. Absent loads do not act. A case combines these. */
export interface Loads {
  readonly [name: LoadName]: LoadSizes;
}

/** A combination of loads to survive: factor per load name. */
export interface LoadCase {
  readonly name: string;
  readonly factors: Readonly<Record<LoadName, number>>;
}

// Usual sizes: common practice, no source.

/**
 * The temperature change since the stress-free state, in every host that shrinks with stress. It stands before all other loads: strength holds
 * it while they are scaled, scatter varies it apart, and a joint at rest carries it alone.
 */
export const cureLoad = {
  name: 'cure',
  sentence: 'The joint cools down from its cure.',
  sizes: {
    deltaT: {
      unit: 'K',
      atLeast: -1000,
      atMost: 1000,
      sentence: 'Temperature change from the stress-free state; negative for cooling down after cure.',
      default: -150,
    },
  },
  example: '{ deltaT: -150 }',
  doubts: ({ deltaT = 0 }: LoadSizes) => tellDoubts(doubtsAbout('loads.cure', 'deltaT', deltaT, 'K', [-300, -20])),
} as const satisfies LoadDefinition;

/** The pressure of what is in the channel: the load by which a supply reaches the edge. */
export const pressureLoad = {
  name: 'pressure',
  sentence: 'The channel is under pressure.',
  sizes: {
    pressure: {
      unit: 'MPa',
      atLeast: 0,
      atMost: 1000,
      sentence: 'Pressure of what is in the channel.',
      default: 0.5,
    },
  },
  example: '{ pressure: 0.5 }',
  doubts: ({ pressure = 0 }: LoadSizes) =>
    tellDoubts(doubtsAbout('loads.pressure', 'pressure', pressure, ['MPa', 'bar', 'kPa', 'GPa'], [0.002, 20])),
} as const satisfies LoadDefinition;
