import type { HostKind } from './contract.js';
import { type LaminateJoint, laminateHost } from './laminate/index.js';
import { type PlateHost, plateHost } from './plate/index.js';
import { type SectionJoint, sectionHost } from './section/index.js';
import { type TeeJoint, teeHost } from './tee/index.js';

/** The kinds of host that are built in, each with its data. A kind without its host does not compile. */
export interface BuiltIn {
  readonly tee: TeeJoint;
  readonly plate: PlateHost;
  readonly laminate: LaminateJoint;
  readonly section: SectionJoint;
}

export const kinds: { readonly [Kind in keyof BuiltIn]: HostKind<BuiltIn[Kind]> } = {
  tee: teeHost,
  plate: plateHost,
  laminate: laminateHost,
  section: sectionHost,
};
