import { type Layup, layupThickness, type Ply, sectionStiffness } from '../../material/index.js';
import { cube, power } from '../../power.js';

/** A flat laminate with a resin pocket across its fibres (x right, y up from the bottom face, z along the channel; mm, MPa, N, K). */
export interface LaminateJoint {
  readonly kind: 'laminate';
  /** From the bottom up, ply by ply. */
  readonly layup: Layup;
  /** Between the end faces; the pocket lies in the middle. */
  readonly width: number;
  /**
   * One cell of an endless row of such pockets, `width` its pitch: the end faces are mirror planes half way to the neighbours, which are mirror images. `ends` say what the
   * row as a whole keeps.
   */
  readonly row?: true;
  /** What holds the end faces, which stay plane: their distance and their direction, their distance, or nothing. */
  readonly ends: 'clamped' | 'simple' | 'free';
  readonly pocket: Pocket;
  /** Of the pocket: isotropic, or unidirectional along z. */
  readonly resin: Ply;
}

/** Where the channel lies: a slot cut in plies, or a lens that plies drape over. */
export type Pocket = Slot | Lens;

/** Cut out of plies: a rectangle. */
export interface Slot {
  readonly made: 'cut';
  /** The first ply that is cut, counted from 0 at the bottom, and how many are. */
  readonly first: number;
  readonly count: number;
  readonly halfWidth: number;
}

/** Left between two plies by a preform over which plies drape. */
export interface Lens {
  readonly made: 'drape';
  /** Plies below it. */
  readonly below: number;
  readonly height: number;
  readonly halfLength: number;
  /** Half the width over which plies run level: over a flat preform, or over several side by side. Left out: none. */
  readonly flat?: number;
  /** 'both-flat': plies on both sides give way and get thinner; 'bottom-flat': those above it are lifted, and the top face with them. */
  readonly faces: 'both-flat' | 'bottom-flat';
  /** The pocket is as high as its channel and the film on both sides of it ask for, within these heights, mm. Left out: of one height. */
  readonly follows?: { readonly least: number; readonly most: number; readonly film: number };
}

/** Half the length of a lens at another height: it goes with the fourth root of what lifts the plies (see `pocket.ts`). */
export const halfLengthAt = ({ halfLength, height, flat = 0 }: Lens, other: number): number =>
  flat + (halfLength - flat) * power(other / height, 0.25);

/** The lens at another height, which is kept. */
export function lensAt({ follows: _, ...lens }: Lens, height: number): Lens {
  return { ...lens, height, halfLength: halfLengthAt(lens, height) };
}

/** Heights of the borders between plies while nothing lies between them, from 0 at the bottom face; one more than plies. */
export function plyBorders(layup: Layup): number[] {
  const borders = [0];
  for (const { thickness } of layup) borders.push(borders.at(-1)! + thickness);
  return borders;
}

/** Height of the middle of a laminate's end faces. */
export const middleHeight = ({ layup }: Pick<LaminateJoint, 'layup'>): number => layupThickness(layup) / 2;

/** What the end faces keep while a load acts: their distance, their direction. */
export interface Hold {
  readonly distance: boolean;
  readonly direction: boolean;
}

/** The supports of a laminate, as loads find them. */
export interface Holds {
  /** Along the laminate: the faces move apart. */
  readonly stretched: Hold;
  /** What bends, shears or shrinks it: they move and turn. */
  readonly free: Hold;
  /** What balances itself at the pocket. */
  readonly within: Hold;
  /** In a row: the faces are moved apart by what a mean strain asks for. */
  readonly strained: Hold;
}

export function holdsOf(ends: LaminateJoint['ends']): Holds {
  const direction = ends === 'clamped';
  return {
    stretched: { distance: false, direction },
    free: { distance: false, direction: false },
    within: { distance: ends !== 'free', direction },
    strained: { distance: true, direction },
  };
}

/** Shear stress of a force of 1 N/mm over an end face, MPa: a parabola, which leaves the faces of the laminate free. */
export function endShear(thickness: number): (y: number) => number {
  return (y) => (6 * y * (thickness - y)) / cube(thickness);
}

/**
 * Force per length (N/mm) at a strain of 1 along the laminate, which is held straight or free to bend, and as free along z as no resultant axial
 * force leaves it: classical lamination theory under the engine's one axial strain (Jones, *Mechanics of Composite Materials*).
 */
export function membraneStiffness({ layup }: Pick<LaminateJoint, 'layup'>, straight: boolean): number {
  const borders = plyBorders(layup);
  const middle = borders.at(-1)! / 2;
  // Over strain, curvature and axial strain; no stress through the thickness.
  const K = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  layup.forEach((layer, k) => {
    const { stiffness: C } = sectionStiffness(layer);
    const condensed = (i: number, j: number) => C[4 * i + j]! - (C[4 * i + 1]! * C[4 + j]!) / C[5]!;
    const [low, high] = [borders[k]! - middle, borders[k + 1]! - middle];
    const [size, first, second] = [high - low, (high ** 2 - low ** 2) / 2, (cube(high) - cube(low)) / 3];
    const [tt, tz, zz] = [condensed(0, 0), condensed(0, 3), condensed(3, 3)];
    [tt * size, tt * first, tz * size, tt * first, tt * second, tz * first, tz * size, tz * first, zz * size].forEach(
      (value, i) => {
        K[i]! += value;
      },
    );
  });
  for (const gone of straight ? [2] : [2, 1]) {
    const row = K.slice(3 * gone, 3 * gone + 3);
    for (let i = 0; i < 3; i++)
      for (let j = 0; j < 3; j++) if (i !== gone && j !== gone) K[3 * i + j]! -= (row[i]! * row[j]!) / row[gone]!;
    for (let i = 0; i < 3; i++) {
      K[3 * gone + i] = 0;
      K[3 * i + gone] = 0;
    }
    K[4 * gone] = 1;
  }
  return K[0]!;
}
