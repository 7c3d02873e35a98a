import type { CurveRates } from './node-rates.js';
import type { CurveNodes } from './nodes.js';

/** One named, bounded parameter of an outline family. */
export interface OutlineParameter {
  readonly name: string;
  /** 'mm', 'deg' or '1' */
  readonly unit: string;
  readonly lower: number;
  readonly upper: number;
  /**
   * Where a search that knows nothing begins, if not anywhere in the range: with small values oftener than large ones ('small', evenly
   * in their square roots: small channels fit in most places), or in the fifth of the range about 0 ('calm': amplitudes drawn from
   * all of it almost never give an admissible outline, none of 4000).
   */
  readonly start?: 'small' | 'calm';
  /** One sentence for a user. */
  readonly meaning: string;
}

/** What an outline family is told about the place it works in. Lengths in mm. */
export interface OutlineRoom {
  /** Left-right symmetric outlines only (mirror line `x = 0`): no `x` and no `turn` among the parameters. */
  readonly mirror: boolean;
  /** Box that holds every admissible channel. */
  readonly xMin: number;
  readonly xMax: number;
  readonly yMin: number;
  readonly yMax: number;
  /** Least radius of curvature asked for; families with explicit tip radii take it as a lower bound. */
  readonly edgeRadius: number;
  /**
   * Outlines stand on a level, or their heights half above and half below it, mm: then `y` is none of their parameters. Of a room that takes
   * the height of its channel.
   */
  readonly stands?: { readonly on: number } | { readonly about: number };
  /** Families of outlines that only this room has, by name: of one whose border can be moved inwards, say. */
  readonly families?: Readonly<Record<string, (room: OutlineRoom) => OutlineFamily>>;
}

/**
 * A family of closed outlines, ready for one room: a map from a parameter vector to a smooth counter-clockwise curve.
 * With `mirror`, every outline it gives is left-right symmetric to rounding.
 */
export interface OutlineFamily {
  readonly name: string;
  readonly mirror: boolean;
  readonly parameters: readonly OutlineParameter[];
  /** Nodes below which `nodesNeeded` must not go: the curvature has steps that a coarse look overlooks. */
  readonly fewestNodes?: number;
  /** Writes the outline of `values` (in the order of `parameters`) into `nodes`; allocates nothing. */
  place(values: ArrayLike<number>, nodes: CurveNodes): void;
  /**
   * Writes the rates of all nodes for every parameter, in closed form, one row of `nodes.count` to a parameter; allocates nothing. `nodes` are those that
   * `place` has written for the same values. Left out by families that have none.
   */
  rates?(values: ArrayLike<number>, nodes: CurveNodes, out: CurveRates): void;
  /**
   * Parameters, within bounds, of an outline much like the one at `nodes`: where a search can begin from what another
   * family reached. Left out by families that cannot.
   */
  imitate?(nodes: CurveNodes): Float64Array;
  /** Where files hold an outline by other values of the same parameters: from those of this family, and back. */
  readonly files?: {
    write(values: ArrayLike<number>): Float64Array;
    read(values: ArrayLike<number>): Float64Array;
  };
}

/** One given outline, ready to be written at any number of nodes. */
export interface Curve {
  /** Left-right symmetric about `x = 0`; then every `place` is, to the last bit. */
  readonly mirror: boolean;
  /** As that of a family. */
  readonly fewestNodes?: number;
  place(nodes: CurveNodes): void;
}

/** An outline as plain data: what a channel file holds. */
export type OutlineData =
  | { readonly family: string; readonly parameters: Readonly<Record<string, number>> }
  | { readonly points: ReadonlyArray<readonly [number, number]> };

/**
 * The border of the room that a channel may use, as signed distance in mm: positive inside, growing away from the
 * border. `Infinity` where there is no border (a plate).
 */
export interface Border {
  distance(x: number, y: number): number;
}
