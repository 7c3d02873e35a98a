import type { HostShape } from '@lumenfront/core';
import type { FrontAxes, FrontPoint, Point } from '../picture/index.js';

/** A table under a heading of its own: strength, delivery, the check by mesh. */
export interface ReportTable {
  readonly heading: string;
  readonly columns: readonly string[];
  readonly rows: ReadonlyArray<ReadonlyArray<string | number>>;
  /** Said below the table. */
  readonly note?: string;
}

/** Stress at the edge in one case, MPa. */
export interface ReportCase {
  /** Largest hoop tension. */
  readonly peak: number;
  readonly at: Point;
  readonly least: number;
}

export interface ReportDesign extends FrontPoint {
  readonly family: string;
  /** Laminar flow rate times viscosity over pressure gradient, mm4. */
  readonly conductance: number;
  /** With the unit of each, as a reader should see them. */
  readonly parameters: Readonly<Record<string, { readonly value: number; readonly unit: string }>>;
  readonly cases: Readonly<Record<string, ReportCase>>;
  /** Absent on a plate, which has no border. mm */
  readonly wall?: number;
  /** mm */
  readonly minEdgeRadius: number;
  /** Closed, counter-clockwise; 200 points or so. mm */
  readonly outline: readonly Point[];
  /** Hoop stress at the points of the outline in the case that rules. */
  readonly edge?: { readonly caseName: string; readonly hoop: readonly number[] };
  /** Of the whole joint, over all cases; absent on a plate. */
  readonly strength?: { readonly retained: number; readonly startsAt: string };
  readonly tables?: readonly ReportTable[];
}

/** The reference channel; older results do not say what it carries. */
export interface ReportReference extends FrontPoint {
  /** mm4 */
  readonly conductance?: number;
}

export interface ReportRequest {
  readonly title: string;
  /** What was asked, a label and its value a row. */
  readonly brief: ReadonlyArray<readonly [label: string, value: string]>;
  /** The brief as it was written. */
  readonly briefText?: string;
  /** Absent for a plate. */
  readonly shape?: HostShape;
  readonly designs: readonly ReportDesign[];
  readonly reference?: ReportReference;
  /** Allowed peak edge stress, MPa. */
  readonly allow?: number;
  /** What the front trades, if not area against peak edge stress: every design then has its place. */
  readonly axes?: FrontAxes;
  /** Index of the design that is shown first and in the joint; the first one if absent. */
  readonly picked?: number;
  /** Where the joint with the picked design fails first. */
  readonly firstFailure?: {
    readonly place: string;
    readonly caseName: string;
    readonly loadFactor: number;
    readonly at: Point;
  };
  /** How the figures were checked and how well they agreed. */
  readonly validation: readonly string[];
  readonly cautions: readonly string[];
  /** Seed, evaluations, why the search stopped: a label and its value a row. */
  readonly search: ReadonlyArray<readonly [label: string, value: string]>;
  readonly versions: Readonly<Record<string, string>>;
}

/** How a family is drawn: path data within some 6 px of the origin. */
export interface Sign {
  readonly path: string;
  readonly fill: string;
  readonly stroke: string;
}

/** A point of the chart. */
export interface PagePoint {
  readonly place: readonly [x: number, y: number];
}

/** What the page's script reads. */
export interface PageData {
  readonly designs: ReadonlyArray<ReportDesign & PagePoint & { readonly caption: string }>;
  readonly reference?: ReportReference & PagePoint;
  /** Titles of the chart's axes, with units. */
  readonly axes: { readonly x: string; readonly y: string };
  /** Allowed peak, where the peak has an axis. */
  readonly limit?: number;
  readonly picked: number;
  /** What the channel is embedded in: its name, SVG path data and view box, mm. */
  readonly room?: { readonly name: string; readonly path: string; readonly box: string };
  readonly signs: Readonly<Record<string, Sign>>;
  /** Colours from the least to the largest hoop stress, in equal steps. */
  readonly ramp: readonly string[];
}
