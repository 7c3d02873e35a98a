import { InputError } from '../../../errors.js';
import { type CubicMesh, energyRelease, growingCut, type Solution } from '../../../mesh/triangle/index.js';
import type { CrackCheck, CrackRelease, CrackSite } from '../../contract.js';
import type { LoadName } from '../../load.js';
import type { LaminateJoint } from '../laminate.js';
import { pocketForm } from '../pocket.js';
import { followedJoint } from './follow.js';
import type { MeshedCrack } from './pocketed.js';
import { solveLaminate } from './solve.js';
import { laminateTriangles } from './triangles.js';

/**
 * A crack grows by a tenth of the ply beside it, or of its own length, in so many sides. Between unlike plies the split into modes depends on that length, a little (Rybicki & Kanninen's
 * closure between unlike bodies: a tenth of a ply to a ply serves, Krueger, Appl. Mech. Rev. 57 (2004) 109-143); the error falls with the sides.
 */
const growth = 0.1;
const sidesOf = (coarseness: number) => Math.max(1, Math.round(8 / (coarseness * coarseness)));

/**
 * Where a crack begins at the corner of a slot, stiff plies end in soft resin, and stresses are more singular than at its tip: sides that are 1, 4, 16 and 64 times finer there
 * bring 94, 97, 99 and 99.7 % of a crack's energy in mode II.
 */
const finerAtMouth = 64;

/** Sides away from the crack over the usual: twice as long change the energy by 0.02 %. */
const farCoarseness = 2;

/** Of the crack's length, what must be left of the laminate beyond it. */
const leftBeyondCrack = 1;

/** A laminate with a pocket, from its bottom face up: flat, or folded into a larger section. */
type PocketLaminate = Pick<LaminateJoint, 'layup' | 'pocket'>;

/** A crack as `CrackCheck` asks for it, its plies counted from the bottom face. */
type AskedCrack = Parameters<CrackCheck['release']>[3];

/** What is meshed with a crack. */
export interface CrackedSection {
  readonly laminate: PocketLaminate;
  /** What the laminate leaves beside its pocket, mm. */
  readonly room: number;
  mesh(coarseness: number, crack: MeshedCrack): CubicMesh;
  solve(mesh: CubicMesh): ReadonlyMap<LoadName, Solution>;
}

/** Along the plies below and above a slot, in the interface of a lens. */
export function crackSites({ pocket, layup }: PocketLaminate): readonly CrackSite[] {
  const interfaces =
    pocket.made === 'drape'
      ? [pocket.below]
      : [pocket.first, pocket.first + pocket.count].filter((below) => below > 0 && below < layup.length);
  return interfaces.flatMap((below) => [
    { end: 'left', below },
    { end: 'right', below },
  ]);
}

export const pliesBeside = ({ layup }: PocketLaminate, { below }: CrackSite): string =>
  `${layup[below - 1]!.angle}/${layup[below]!.angle}`;

/** What a crack from the end of a pocket sets free. Throws InputError where it is too long. */
export function crackRelease(
  { laminate, room, mesh: meshWith, solve }: CrackedSection,
  { coarseness, length, ...site }: AskedCrack,
): CrackRelease {
  checkLength(room, length);
  const mesh = meshWith(farCoarseness * coarseness, meshedCrack(laminate, site, length, coarseness));
  const cut = growingCut(mesh, mesh.sides.get('crack')!, sidesOf(coarseness));
  const short = solve(cut.short.mesh);
  const long = solve(cut.long.mesh);
  return { loads: [...short.keys()], ...energyRelease(cut, [...short.values()], [...long.values()]) };
}

/** Cracks between plies from the ends of a laminate's pocket. */
export const laminateCracks: CrackCheck<LaminateJoint> = {
  sites: crackSites,
  between: pliesBeside,
  release(joint, loads, curves, crack) {
    const laminate = followedJoint(joint, curves);
    const section: CrackedSection = {
      laminate,
      room: joint.width / 2 - pocketForm(laminate).halfWidth,
      mesh: (coarseness, meshed) => laminateTriangles(laminate, curves, coarseness, meshed),
      solve: (mesh) => solveLaminate(mesh, laminate, loads),
    };
    return crackRelease(section, crack);
  },
};

function meshedCrack(
  { layup, pocket }: PocketLaminate,
  { end, below }: CrackSite,
  length: number,
  coarseness: number,
): MeshedCrack {
  const beside = Math.min(layup[below - 1]!.thickness, layup[below]!.thickness, length);
  const sides = sidesOf(coarseness);
  const step = (growth * beside) / sides;
  return {
    end,
    side: pocket.made === 'cut' && below === pocket.first ? 'lower' : 'upper',
    length: length - (growth * beside) / 2,
    sides,
    step,
    mouth: pocket.made === 'cut' ? step / finerAtMouth : step,
  };
}

function checkLength(room: number, length: number): void {
  if ((1 + leftBeyondCrack) * length < room) return;
  throw new InputError({
    path: 'strength.crackGrowth.length',
    expected: `below ${Number((room / (1 + leftBeyondCrack)).toPrecision(4))} mm, half of what is left of the laminate beside its pocket`,
    received: `${length} mm`,
    remedy: 'take a shorter crack (some ply thicknesses), or give the pocket more room',
  });
}
