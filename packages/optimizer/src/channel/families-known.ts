import { costOf, sizeOf } from './family-space.js';
import type { FamilyStart } from './refine.js';
import type { KnownOutline } from './refined.js';
import type { FamilySearches } from './search-families.js';

/** Share of the budget of a search that refines its front, which goes to the families; the rest refines what they found. */
const wideShare = 0.1;
/** …and so many at least. */
const leastWide = 1500;

/** Evaluations of the families of a task whose front is refined. */
export const wideBudget = (evaluations: number): number => Math.max(leastWide, Math.floor(wideShare * evaluations));

/** What the families found, as starts of a refinement. */
export const knownTo = ({ common, searches }: FamilySearches): (KnownOutline & { readonly start: FamilyStart })[] =>
  common.front().map((found) => ({
    start: { family: searches.indexOf(found.owner), x: found.x },
    size: sizeOf(found),
    cost: costOf(found),
  }));
