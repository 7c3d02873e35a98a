import { type CrackSite, cracksOf, cureLoad, type Joint, type LoadCase, type Loads } from '../host/index.js';
import { alone, type CurveNodes, type SideBySide } from '../outline/index.js';
import { caseFactors, channelCurves } from '../stress/index.js';
import { splitCase } from './case-split.js';
import { growthFactor, type ReleasedEnergy, releasedEnergy, type Toughness } from './crack-growth.js';

/** A crack in one case. */
export interface CrackInCase extends ReleasedEnergy {
  /** See `growthFactor`; Infinity where no factor makes it grow. */
  readonly loadFactor: number;
  /** Of the energy, as a share of what both modes set free: difference of the two meshes. */
  readonly error: number;
}

/** A crack that runs out of a pocket. */
export interface MeshedCrackReport extends CrackSite {
  /** Angles of the plies below and above it, degrees. */
  readonly between: string;
  /** Per case, by its name. */
  readonly cases: Readonly<Record<string, CrackInCase>>;
}

/** How far a crack runs out of the pocket, mm, and what it withstands. */
export interface CrackWish extends Toughness {
  readonly length: number;
}

/** The coarser mesh of a pair has twice as long sides at the tip, by which the error falls as they do. */
const coarser = Math.SQRT2;

/**
 * Energy that cracks set free which run out of a pocket between plies, one at a time, and the load factor at which they grow: by the meshed
 * section with its channels, twice as fine and coarse. Takes seconds for each. `undefined` for a joint without such cracks. `nodes`: 256 serve any admissible outline.
 *
 * @throws InputError for a crack that is too long for the section
 */
export function meshedCracks(
  { joint, loads, cases }: { readonly joint: Joint; readonly loads: Loads; readonly cases: readonly LoadCase[] },
  nodes: CurveNodes,
  wish: CrackWish,
  channels: SideBySide = alone,
): readonly MeshedCrackReport[] | undefined {
  const cracks = cracksOf(joint);
  const sites = cracks?.sites(joint) ?? [];
  if (cracks === undefined || sites.length === 0) return undefined;
  const curves = channelCurves(nodes, channels);
  return sites.map((site) => {
    const [fine, coarse] = [1, coarser].map((coarseness) =>
      cracks.release(joint, loads, curves, { ...site, length: wish.length, coarseness }),
    ) as [ReturnType<typeof cracks.release>, ReturnType<typeof cracks.release>];
    const { loads: names } = fine;
    const byCase = cases.map((one): [string, CrackInCase] => {
      const factors = caseFactors(one, [...names]);
      const energy = releasedEnergy(fine, factors);
      const other = releasedEnergy(coarse, factors);
      const [both, otherBoth] = [energy.modeI + energy.modeII, other.modeI + other.modeII];
      const loadFactor = growthFactor(fine, splitCase(factors, names.indexOf(cureLoad.name)), wish);
      return [one.name, { ...energy, loadFactor, error: both === 0 ? 0 : Math.abs(both - otherBoth) / both }];
    });
    return { ...site, between: cracks.between(joint, site), cases: Object.fromEntries(byCase) };
  });
}
