import type { HostBrief } from './contract.js';
import type { BuiltIn } from './kinds.js';
import { laminateBrief } from './laminate/index.js';
import { plateBrief } from './plate/index.js';
import { sectionBrief } from './section/index.js';
import { teeBrief } from './tee/index.js';

/** How briefs tell of the built-in kinds; not in a bundle that reads none. */
export const briefs: { readonly [Kind in keyof BuiltIn]: HostBrief<BuiltIn[Kind]> } = {
  tee: teeBrief,
  plate: plateBrief,
  laminate: laminateBrief,
  section: sectionBrief,
};
