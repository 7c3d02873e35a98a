import type { Delivery } from '../flow/index.js';
import type { Joint, LoadCase, Loads } from '../host/index.js';

/** A family of outlines that a brief can ask for: one of all rooms, or one of its host's own. */
export type FamilyName = string;

/** The channel that every design is compared with. Lengths in mm. */
export interface ReferenceChannel {
  readonly family: 'ellipse';
  /** Centre. */
  readonly at: readonly [number, number];
  readonly width: number;
  readonly height: number;
}

/** Which channels are looked for. Lengths in mm. */
export interface ChannelWish {
  readonly families: readonly FamilyName[];
  /** Least material between channel and laminate. */
  readonly wall: number;
  /** Least radius of curvature of the edge. */
  readonly edgeRadius: number;
  readonly mirror: boolean;
  /** Largest extent of a channel; always given for a host that has no border. */
  readonly largest?: { readonly width: number; readonly height: number };
  readonly reference: ReferenceChannel;
  /** Channels side by side (see `SideBySide`); all else tells of one of them: of two the right one. */
  readonly group?: ChannelGroup;
  /** One channel of an endless row, of which the joint is a cell. */
  readonly row?: ChannelRow;
}

/** What an endless row asks for beside what each of its channels does. */
export interface ChannelRow {
  /** Whether all are supplied alike, or every other one carries back what its neighbour brings. */
  readonly connected: 'parallel' | 'series';
  /** From middle to middle, mm. */
  readonly pitch: number;
}

/** What channels side by side ask for beside what each does. Lengths in mm. */
export interface ChannelGroup {
  /** 2 or more. */
  readonly number: number;
  /** How they are supplied. */
  readonly connected: 'parallel' | 'series';
  /** From middle to middle; left out, of two only: free. */
  readonly pitch?: number;
  /** Largest extent of all together; always given for a host without border. */
  readonly largest?: { readonly width: number; readonly height: number };
}

/** What a front trades: a size that is made large against a cost that is kept small. */
export interface ChannelObjective {
  /** mm2 or mm4 */
  readonly size: 'area' | 'conductance';
  /** Peak edge stress, MPa; one over the joint's load factor to first failure; or one over the share of its strength that it retains. */
  readonly cost: 'peak' | 'loadFactor' | 'strengthRetained';
}

/** How a front is searched. */
export interface SearchWish {
  readonly seed: number;
  readonly evaluations: number;
  /** Of the front; the largest channel within an allowed peak is always one of area. */
  readonly objective: ChannelObjective;
}

/** What the channel has to carry, and what acts on the joint meanwhile. */
export interface DeliveryWish extends Delivery {
  /** A case of the brief, or the joint at rest: its cure alone, or no load. */
  readonly during: LoadCase;
}

/** How the strength of the whole joint is judged, and what a channel must leave of it. Lengths in mm. */
export interface StrengthWish {
  readonly edge: 'peak' | { readonly distance: number; readonly average: boolean };
  readonly cuspDistance?: number;
  /** Share of the strength without channel. */
  readonly leastRetained?: number;
  /** How far cracks run out of a pocket (mm), and what the interface withstands (N/mm). Left out: none are looked at. */
  readonly crackGrowth?: { readonly length: number; readonly modeI: number; readonly modeII: number };
  readonly startsAwayFromEdge: boolean;
  /** Slopes of the stress-life lines. */
  readonly fatigue: { readonly tension: number; readonly delamination: number };
}

/**
 * What differs from one made channel or joint to the next: standard deviations (`normal`) or half ranges (`uniform`) of independent
 * deviations. 0 does not scatter.
 */
export interface ScatterWish {
  readonly distribution: 'normal' | 'uniform';
  /** Made channels that a design is judged by. */
  readonly samples: number;
  /** Form of the edge along its normal, mm: half of its variance is size, the rest two to four waves. */
  readonly outline: number;
  /** Position across and up, each, mm. */
  readonly position: number;
  /** About the centroid, degrees. */
  readonly turn: number;
  /** All strengths of a joint together, as a share. */
  readonly strength: number;
  /** Size of the cure load (temperature change, or all expansions together), as a share. */
  readonly cure: number;
  /** Share of made channels whose peak must not exceed the value that designs are compared by. */
  readonly quantile: number;
}

/** A material that a brief uses. */
export interface UsedMaterial {
  readonly name: string;
  /** Where: `host.skin`, … */
  readonly at: readonly string[];
  /** The brief's own values; built-in ones that it names; or built-in ones where it names none. */
  readonly source: 'own' | 'built-in' | 'default';
}

/** A brief that was checked: plain data, defaults filled in, names replaced by what they stand for. */
export interface ResolvedBrief {
  readonly title: string;
  readonly joint: Joint;
  readonly loads: Loads;
  readonly cases: readonly LoadCase[];
  readonly channel: ChannelWish;
  /** Allowed peak edge stress, MPa. */
  readonly allow: number;
  readonly search: SearchWish;
  readonly delivery: DeliveryWish;
  readonly strength: StrengthWish;
  readonly scatter: ScatterWish;
  /** In the order in which the host asks for them. */
  readonly materials: readonly UsedMaterial[];
  /** What is allowed but should be known: built-in material values, no case for the cured state alone, numbers that are hardly meant. */
  readonly cautions: readonly string[];
  /** Combinations of what the brief leaves open beside the outline; all else here is that of the first. */
  readonly choices?: readonly BriefChoice[];
}

/** Chosen values by their path in the brief. */
export type ChoiceValues = Readonly<Record<string, unknown>>;

/** One combination of what a brief leaves open, with the brief that it makes. */
export interface BriefChoice {
  readonly values: ChoiceValues;
  readonly brief: ResolvedBrief;
}
