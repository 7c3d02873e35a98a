import type { HostCheck } from './contract.js';
import type { BuiltIn } from './kinds.js';
import { laminateCheck } from './laminate/index.js';
import { plateCheck } from './plate/index.js';
import { sectionCheck } from './section/index.js';
import { teeCheck } from './tee/index.js';

/** Independent checks of the built-in kinds; not in a bundle that meshes none. */
export const checks: { readonly [Kind in keyof BuiltIn]: HostCheck<BuiltIn[Kind]> } = {
  tee: teeCheck,
  plate: plateCheck,
  laminate: laminateCheck,
  section: sectionCheck,
};
