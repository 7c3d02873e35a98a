import type { z } from 'zod/mini';
import type { BriefPath, ProblemList, Zod } from '../input/index.js';
import type { Ply } from '../material/index.js';
import type { CubicMesh, EdgeCurve, EnergyRelease, Solution } from '../mesh/triangle/index.js';
import type { Border, OutlineRoom } from '../outline/index.js';
import type { HeightPlan } from './height-table.js';
import type { LoadDefinition, LoadName, Loads } from './load.js';
import type { PlaceDefinition, PointStrength, SectionPoint } from './place.js';
import type { ContourData, ReducedModel } from './reduced-model.js';
import type { HostShape } from './shape.js';

/** What a channel is embedded in, as plain data: a kind that the registry knows, and whatever fixes one section of that kind. */
export interface Joint {
  readonly kind: string;
}

/** What channels in a host are asked to keep; lengths in mm. */
export interface RoomWish {
  readonly mirror: boolean;
  readonly wall: number;
  readonly edgeRadius: number;
  readonly largest?: { readonly width: number; readonly height: number };
}

/** Materials by name, for a host's section of a brief. */
export interface MaterialBook {
  /** A stand-in, with a problem added, if there is no such material. */
  find(name: string, path: BriefPath): Ply;
  /** Of a file beside the brief, and its SHA-256; `undefined`, with a problem added, if there is none. */
  text(file: string, path: BriefPath): { readonly text: string; readonly sha256: string } | undefined;
}

/** One section, made ready: all that is particular to it. Lengths in mm, MPa. */
export interface Host {
  readonly kind: string;
  /** Around the channel; isotropic in the plane of the section. */
  readonly material: Ply;
  /** What the channel keeps its wall from. */
  readonly border: Border;
  /** On this scale a missing wall counts in a search: about the largest radius that a channel can have. */
  readonly lengthScale: number;
  /** Where a channel has most room; none without a border. */
  readonly largestCircle?: {
    readonly at: readonly [number, number];
    readonly radius: number;
    /** For messages: what it is, how it follows from the section's lengths, what gives more of it, and where a channel may lie. */
    readonly words: { readonly name: string; readonly formula: string; readonly more: string; readonly inside: string };
  };
  /** Channels that a brief means where it names none. */
  readonly usual: {
    readonly reference: { readonly at: readonly [number, number]; readonly width: number; readonly height: number };
    readonly largest?: { readonly width: number; readonly height: number };
    /** Whether outlines are mirror-symmetric in `x = 0`. Left out: they are. */
    readonly mirror?: boolean;
  };
  /** The room of a search, and all of it, for outlines that need not keep what a brief asks for. */
  room(wish: RoomWish): OutlineRoom;
  wholeRoom(wish: Pick<RoomWish, 'mirror' | 'largest'>): OutlineRoom;
  /**
   * Whether the reduced model holds within a control contour only, which the wished room fixes, and is dear: then it is kept, and made
   * anew for an outline that comes nearer to the border.
   */
  readonly condensed: boolean;
  /** Solves all that lies outside the control contour, once for all channels; `onProgress` as `reduceJoint` tells it. */
  reduce(wish: Omit<RoomWish, 'mirror'>, onProgress?: (share: number) => void): ReducedModel;
  /** Left out where two channels serve; else why there is room for one only, and what to do about it. */
  readonly oneChannel?: { readonly why: string; readonly remedy: string };
  /** Of a pocket that is as high as its channel asks for. */
  readonly follows?: FollowingPocket;
  /** What there is to solve, known before it is made; none where that is no matter. Throws `InputError` for walls that leave no room. */
  size?(wish: Omit<RoomWish, 'mirror'>): HostSize;
  /** Whether more than the edge of the channel is judged for strength. */
  readonly judgesSection: boolean;
  /** What a point of the section can bear. */
  strengthAt(point: SectionPoint): PointStrength;
  /** Points (of the right half, if it is mirror-symmetric) near which stresses are singular: nothing is judged within a distance of them. */
  readonly tips?: {
    readonly at: readonly (readonly [number, number])[];
    readonly usualDistance: number;
    readonly mostDistance: number;
    /** For messages: what they are, and what `mostDistance` is of the section. */
    readonly words: { readonly name: string; readonly most: string };
  };
  /** For pictures and drawings; none where there is nothing around the channel. */
  readonly shape?: HostShape;
  /** What a brief comes to, for people. */
  readonly summary: readonly (readonly [label: string, text: string])[];
}

/** A pocket that is as high as its channel and the resin film on both sides of it ask for, within a range. Heights of pockets, mm. */
export interface FollowingPocket {
  readonly range: readonly [least: number, most: number];
  /** What the least and the largest channel are high. */
  readonly channels: readonly [least: number, most: number];
  /** Height that an outline asks for which reaches from `bottom` to `top`: within the range. */
  heightFor(bottom: number, top: number): number;
  /** The host's border, strengths and tips become those of a pocket of this height. Allocates nothing. */
  moveTo(height: number): void;
  /** The joint with a pocket of this height, which is kept. */
  jointAt(height: number): Joint;
  /** What `reduce` reduces. */
  plan(wish: Omit<RoomWish, 'mirror'>): HeightPlan;
}

/** About what is solved, by which time and memory are told before they are spent. */
export interface HostSize {
  /** Condensed onto the control contour. */
  readonly elements: number;
  /** Edges of that contour where they grow with what is asked of channels: what is kept of the elements are full matrices of so many rows, four times. */
  readonly contour?: number;
  /** How many times the work comes again at most, where the fields ask for a finer model. */
  readonly finest: number;
  /** Solved one after the other; 1 where left out. */
  readonly models?: number;
  /** Of the mesh that checks a channel. */
  readonly triangles: number;
}

/** A kind of section with what else is known of it. */
export type KnownKind<Of extends Joint = Joint> = HostKind<Of> & Partial<HostBrief<Of>> & Partial<HostCheck<Of>>;

/** Every load solved on one mesh. */
export interface MeshedLoads {
  readonly mesh: CubicMesh;
  readonly solutions: ReadonlyMap<LoadName, Solution>;
}

/**
 * A kind of section: all that is particular to it, behind one door, but how briefs tell of it (`HostBrief`) and its independent check
 * (`HostCheck`): a bundle that reads no brief, or meshes nothing, leaves those out. A further kind is all three in a folder of its own, and a
 * line in each table; nothing else knows that it exists. `test/fixtures/host-checks.ts` (of the repository) holds what each must pass.
 */
export interface HostKind<Of extends Joint = Joint> {
  readonly kind: Of['kind'];
  /** With its article, for sentences: 'an infinite sheet'. */
  readonly name: string;
  readonly loads: readonly LoadDefinition[];
  /** Loads that a section of a brief, or a joint, names itself, beside those of all; before anything of it is checked. */
  ownLoads?(written: unknown): readonly LoadDefinition[];
  /** By the names that its points carry. */
  readonly places: Readonly<Record<string, PlaceDefinition>>;
  /** Families of outlines that only rooms of this kind have: names of `OutlineRoom.families`. */
  readonly families: readonly string[];
  /** The border of a control contour, as signed distance, positive inside. */
  contour(data: ContourData): Border;
  open(joint: Of): Host;
  /** Of some joints of its kind only: whether this is one of them, also as a brief tells it. One that knows all of the kind may take its place. */
  readonly part?: (joint: object) => boolean;
}

/** How briefs tell of a kind of section. */
export interface HostBrief<Of extends Joint = Joint, Section extends Joint = Joint> {
  /** Section `host` of a brief; its `kind` is a literal. */
  section(z: Zod): z.ZodMiniObject;
  /** How sections of this kind stand in an endless row side by side; left out where they cannot. */
  readonly row?: {
    /** Loads under which no two cells of a row bear alike: why, and what to do about it. */
    readonly without: Readonly<Record<LoadName, { readonly why: string; readonly remedy: string }>>;
    /** A cell of the row, a pitch wide (mm), instead of the section by itself. */
    cell(joint: Of, pitch: number, problems: ProblemList): Of;
  };
  /** A section after its schema as plain data; `problems` takes what is wrong with its geometry. `undefined` where nothing can stand in for it. */
  resolve(section: Section, book: MaterialBook, problems: ProblemList): Of | undefined;
  /** What may be given but hardly can be meant, one sentence each. */
  doubts(section: Section): readonly string[];
}

/** Where a crack may run out of a pocket: to which side, and between which plies. */
export interface CrackSite {
  readonly end: 'left' | 'right';
  /** The ply below the interface, as briefs count: from 1. */
  readonly below: number;
}

/** What a crack sets free as it grows, under every two of the loads at their given sizes. */
export interface CrackRelease extends EnergyRelease {
  readonly loads: readonly LoadName[];
}

/** Cracks that run out of a pocket between two plies; no sites in a joint without one. */
export interface CrackCheck<Of extends Joint = Joint> {
  sites(joint: Of): readonly CrackSite[];
  /** Angles of the plies below and above a site, degrees, for people: `90/0`. */
  between(joint: Of, site: CrackSite): string;
  /**
   * By the mesh of the section with its channels and with the crack, `length` long from the pocket (mm); its mouth is the end of the pocket, where the resin holds. Throws
   * InputError where it is too long for the section.
   */
  release(
    joint: Of,
    loads: Loads,
    curves: readonly EdgeCurve[],
    crack: CrackSite & { readonly length: number; readonly coarseness: number },
  ): CrackRelease;
}

/** The independent check of a kind of section. */
export interface HostCheck<Of extends Joint = Joint> {
  /** A section with its channels (or without) in triangles, every load solved at its given size. */
  mesh(joint: Of, loads: Loads, curves: readonly EdgeCurve[], coarseness: number): MeshedLoads;
  /** Left out where a section has no pocket, or its cracks are not meshed. */
  readonly cracks?: CrackCheck<Of>;
}
