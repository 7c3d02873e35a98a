import type { ChannelDesign, ChannelObjective, StrengthSummary } from '@lumenfront/core';
import type { SearchRun } from '../channel/index.js';
import type { Agreement } from './agreement.js';
import type { MeshedEdge } from './mesh-edge.js';

/** A channel with its stresses and its flow, as every result holds it. mm, MPa */
export interface DesignDocument extends ChannelDesign {
  readonly family: string;
  readonly parameters: Readonly<Record<string, number>>;
  /** What it leaves of the joint, which `check` tells case by case; left out on a plate. */
  readonly strength?: StrengthSummary;
}

/** A channel that was solved by the independent mesh as well. */
export interface VerifiedDesign extends DesignDocument {
  readonly meshed: MeshedEdge;
  readonly difference: Agreement;
}

export function isVerified(design: DesignDocument): design is VerifiedDesign {
  return 'difference' in design;
}

/** How a search went. */
export interface SearchDocument {
  readonly seed: number;
  /** Outlines that were evaluated. */
  readonly evaluations: number;
  readonly runs: readonly SearchRun[];
}

/** What every result says of itself. */
export interface ResultDocument {
  readonly title: string;
  readonly reference: DesignDocument;
  /** Allowed peak edge stress, MPa. */
  readonly allow: number;
  readonly cautions: readonly string[];
  readonly versions: Readonly<Record<string, string>>;
}

/** The result of `front`. */
export interface FrontDocument extends ResultDocument {
  /** Best over all families: none has both more of the size and less of the cost. By growing size. */
  readonly designs: readonly DesignDocument[];
  /** The front that each family has by itself. */
  readonly families: Readonly<Record<string, readonly DesignDocument[]>>;
  readonly search: SearchDocument & {
    /** What the front trades. */
    readonly objective: ChannelObjective;
    /**
     * Of the searched front in size (mm2 or mm4) and cost (MPa, or one over load factor or strength retained), against
     * `referencePoint`.
     */
    readonly hypervolume: number;
    readonly referencePoint: readonly [size: number, cost: number];
    /** Where the search was repeated with other seeds. */
    readonly repeats?: RepeatsDocument;
  };
}

/** Hypervolumes of fronts that differ in their seed, against a common reference point. */
export interface RepeatsDocument {
  readonly referencePoint: readonly [size: number, cost: number];
  readonly seeds: readonly { readonly seed: number; readonly hypervolume: number }[];
  readonly least: number;
  readonly median: number;
  readonly most: number;
}

/** The result of `pick`. */
export interface PickDocument extends ResultDocument {
  readonly design: DesignDocument;
  /** The largest channel of each family that has one. */
  readonly families: Readonly<Record<string, DesignDocument>>;
  readonly search: SearchDocument;
}
