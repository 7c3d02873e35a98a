import { bendingField } from './bending-field.js';
import { bimaterialCylinder } from './bimaterial-cylinder.js';
import type { Publication } from './check.js';
import { crack } from './crack.js';
import { curvedBar } from './curved-bar.js';
import { ductFlow } from './duct-flow.js';
import { facts } from './facts.js';
import { freeEdge } from './free-edge.js';
import { goodier } from './goodier.js';
import { holeGroup } from './hole-group.js';
import { howland } from './howland.js';
import { independentJoint } from './independent-joint.js';
import { inglis } from './inglis.js';
import { kirsch } from './kirsch.js';
import { lame } from './lame.js';
import { laminarFlow } from './laminar-flow.js';
import { laminate } from './laminate.js';
import { lekhnitskii } from './lekhnitskii.js';
import { ling } from './ling.js';
import { maps } from './maps.js';
import { notchedStrength } from './notched-strength.js';
import { pagano } from './pagano.js';
import { row } from './row.js';

export { type Check, differenceOf } from './check.js';
export { checkMeshedJoint } from './meshed-joint.js';

/** Everything that is checked against a published value or a fact of mechanics, in the order of the page. */
export const publications: readonly Publication[] = [
  kirsch,
  inglis,
  maps,
  ling,
  holeGroup,
  row,
  howland,
  freeEdge,
  bendingField,
  goodier,
  lame,
  lekhnitskii,
  curvedBar,
  bimaterialCylinder,
  laminate,
  pagano,
  crack,
  independentJoint,
  notchedStrength,
  laminarFlow,
  ductFlow,
  facts,
];
