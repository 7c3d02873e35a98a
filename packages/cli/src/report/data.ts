import type { CopyPlace, HostShape, MeshedField, OutlineData } from '@lumenfront/core';
import type { CopyMove } from '../draw/index.js';
import type { FrontAxes, FrontPoint, Point } from '../picture/index.js';
import type { LiveData } from './live/live-data.js';

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

/** Where the joint fails first in one case. */
export interface ReportFailure {
  readonly place: string;
  readonly loadFactor: number;
  readonly at: Point;
}

/** What a design leaves of the joint. */
export interface ReportStrength {
  /** Over all cases, share of the strength without channel. */
  readonly retained: number;
  /** Least over the cases, and the case that has it. */
  readonly loadFactor: number;
  readonly worstCase: string;
  readonly startsAt: string;
  /** `1.31, filler`: by how much the load factor of the place that fails next is larger, and which it is. */
  readonly next?: string;
  /** Largest tension at the edge of a channel of known outline beside it, MPa. */
  readonly beside?: number;
  /** Only cases in which something fails at some load. */
  readonly cases: Readonly<Record<string, ReportFailure>>;
}

/** One channel, judged. */
export interface ReportChannel extends FrontPoint {
  readonly family: string;
  /** Laminar flow rate times viscosity over pressure gradient, mm4. */
  readonly conductance: number;
  /** As files hold them. */
  readonly parameters: Readonly<Record<string, number>>;
  readonly cases: Readonly<Record<string, ReportCase>>;
  /** Absent on a plate, which has no border. mm */
  readonly wall?: number;
  /** mm */
  readonly minEdgeRadius: number;
  /** Of several channels or a row, from middle to middle, mm. */
  readonly pitch?: number;
  /** What is around it, where that differs from channel to channel. */
  readonly shape?: HostShape;
  /** Closed, counter-clockwise; 200 points or so. mm */
  readonly outline: readonly Point[];
  /** Of several channels all but the one of `outline`. */
  readonly others?: readonly ReportCopy[];
  /** Hoop stress at the points of the outline, by case, and the case that rules. */
  readonly edge?: { readonly worstCase: string; readonly hoop: Readonly<Record<string, readonly number[]>> };
  /** Of the whole joint; absent on a plate. */
  readonly strength?: ReportStrength;
  readonly tables?: readonly ReportTable[];
  /** Stress of what surrounds it, by the mesh; few have it. */
  readonly field?: MeshedField;
}

/** One of several channels of one outline: where it stands, and the hoop stress at its points, by case. */
export interface ReportCopy extends Pick<CopyPlace, 'isMirrored'> {
  /** From the files of the given one to its own, in the axes of the section. */
  readonly move: CopyMove;
  readonly outline: readonly Point[];
  readonly hoop: Readonly<Record<string, readonly number[]>>;
}

export interface ReportDesign extends ReportChannel {
  /** In the result, from 1; its place among these if absent. */
  readonly number?: number;
  /** Files that the page offers to save, beside drawings that it makes of polygon and curves. */
  readonly files?: {
    /** Of the drawing's polygon, mm with six decimals. */
    readonly vertices: readonly Point[];
    /** Start and both handles of each of its smooth curves, one after the other. */
    readonly curves: readonly Point[];
    /** Of the drawing, with six decimals; mm² and mm. */
    readonly area: string;
    readonly perimeter: string;
    readonly chordError: string;
    /** What commands read as a channel, where the design's family and parameters do not tell. */
    readonly channel?: OutlineData | { readonly points: readonly Point[] };
  };
}

/** The front of one choice of what a brief leaves open. */
export interface ChoiceLine {
  /** `channels.number 2, host.pocket.plies [3, 4]` */
  readonly name: string;
  /** The report's designs are of this choice. */
  readonly shown: boolean;
  /** By growing size. */
  readonly points: ReadonlyArray<PagePoint & { readonly caption: string }>;
}

export interface ReportRequest {
  readonly title: string;
  /** What was found, in sentences. */
  readonly answer?: readonly string[];
  /** What was asked, a label and its value a row. */
  readonly brief: ReadonlyArray<readonly [label: string, value: string]>;
  /** The brief as it was written. */
  readonly briefText?: string;
  /** Absent for a plate. */
  readonly shape?: HostShape;
  /** A front of designs, or what a pick chose among. */
  readonly kind?: 'front' | 'pick';
  readonly designs: readonly ReportDesign[];
  /** Designs of the result, where a page shows some of them. */
  readonly all?: number;
  /** Numbers of those that it shows whatever it takes. */
  readonly wanted?: readonly number[];
  /** Units of the designs' parameters, by name. */
  readonly units?: Readonly<Record<string, string>>;
  /** What each family has by itself, below the front. */
  readonly families?: Readonly<Record<string, readonly FrontPoint[]>>;
  /** What the brief leaves open: the choices side by side, and a line in the chart for each. */
  readonly choices?: { readonly table: ReportTable; readonly lines: readonly ChoiceLine[] };
  readonly reference?: ReportChannel;
  /** Stress of the joint without channel, by the mesh, in the box of the designs' fields. */
  readonly without?: MeshedField;
  /** Allowed peak edge stress, MPa. */
  readonly allow?: number;
  /** What the front trades, if not area against peak edge stress: every design then has its place. */
  readonly axes?: FrontAxes;
  /** Index of the design that is shown first; the first one if absent. */
  readonly picked?: number;
  /** How the figures were checked and how well they agreed. */
  readonly validation: readonly string[];
  readonly cautions: readonly string[];
  /** Seed, evaluations: a label and its value a row. */
  readonly search: ReadonlyArray<readonly [label: string, value: string]>;
  /** Why each run of the search ended. */
  readonly runs?: readonly string[];
  readonly versions: Readonly<Record<string, string>>;
  /** Lets the reader change the outline of a design and see what comes of it: the script of the page's solver (`live.js` of this package), and its data. */
  readonly live?: { readonly script: string; readonly data: LiveData };
}

/** How a family is drawn: path data within some 6 px of the origin. */
export interface Sign {
  readonly path: string;
  /** Which of the style's colours. */
  readonly tone: number;
}

/** A point of the chart. */
export interface PagePoint {
  readonly place: readonly [x: number, y: number];
}

/** A channel as the page holds it. */
export type PageChannel = Omit<ReportChannel, 'field' | 'shape'> &
  PagePoint & {
    /** `design 12`, `reference`. */
    readonly name: string;
    readonly caption: string;
    /** Its own section, in place of the page's. */
    readonly section?: Pick<PageSection, 'room' | 'layers' | 'openings'>;
    readonly field?: PageField;
  };

/** Principal stresses and the largest shear, each by case, in cells as `fieldSteps` writes them. */
export type PageField = Readonly<Record<'largest' | 'least' | 'shear', Readonly<Record<string, string>>>>;

/** The section around the channel, in mm with y down, as SVG path data. */
export interface PageSection {
  readonly name: string;
  readonly room: string;
  readonly layers: ReadonlyArray<{ readonly path: string; readonly shade: number }>;
  /** Channels of known outline beside the one that is told of. */
  readonly openings?: readonly string[];
  readonly whole: PageBox;
  readonly closeUp: PageBox;
  /** What brings all but `whole` into the axes of the section, as SVG's transform; left out where it is in them. */
  readonly turn?: string;
}

/** mm, y down. */
export interface PageBox {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** The number by which commands call the design at a place of a report. */
export const numberOf = ({ number }: ReportDesign, place: number): number => number ?? place + 1;

/** What the page's script reads. */
export interface PageData {
  readonly title: string;
  readonly designs: ReadonlyArray<PageChannel & Pick<ReportDesign, 'files'>>;
  readonly reference?: PageChannel;
  /** Units of parameters, by name. */
  readonly units: Readonly<Record<string, string>>;
  /** Points of the families' own fronts. */
  readonly others: ReadonlyArray<PagePoint & { readonly family: string }>;
  /** Fronts of the choices that the brief leaves open. */
  readonly lines: readonly ChoiceLine[];
  /** Titles of the chart's axes, with units. */
  readonly axes: { readonly x: string; readonly y: string };
  /** Whether there is a front to draw. */
  readonly front: boolean;
  /** Allowed peak, where the peak has an axis. */
  readonly limit?: number;
  readonly picked: number;
  readonly cases: readonly string[];
  readonly section?: PageSection;
  /** Colour range of all stresses of the report, and what is marked on it. MPa */
  readonly scale: { readonly low: number; readonly high: number; readonly allow?: number };
  readonly fields?: {
    readonly box: PageBox;
    readonly columns: number;
    readonly rows: number;
    readonly without?: PageField;
  };
  readonly signs: Readonly<Record<string, Sign>>;
  /** Colours from the least to the largest stress, in equal steps. */
  readonly ramp: readonly string[];
  /** A DXF and an SVG drawing with marks where a design's own numbers go; see `drawing-frames.ts`. */
  readonly frames?: { readonly dxf?: string; readonly svg: string };
}
