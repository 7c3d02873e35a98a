export { outsideBody, type PointShare } from './body.js';
export { type Combination, combined, eliminateBeyond } from './combination.js';
export {
  type ByClass,
  type Condensed,
  type CondensedHost,
  type ContourNodes,
  type FieldClass,
  inClass,
  type OutsideBody,
  type Recoverable,
  type RecoverableHost,
} from './condensed.js';
export { contourBasis, type Inside, insideContour, upToDegree, withPoles } from './inside.js';
export { type InterfacePoint, interfacePoints, type SurfacedBody } from './interface.js';
export { type AroundContour, finerFields, placedModel, type SolvedTwice } from './placed-model.js';
export { differenceAround, drawEllipse, type Probe, wantedAccuracy } from './prove.js';
export {
  best,
  byBestPlaces,
  createRecovery,
  faceTellers,
  heightOf,
  lengthOf,
  other,
  own,
  type Recovery,
  type RecoveryBuilder,
  shareOf,
  spacedColumns,
  type Teller,
  turnedRows,
  whole,
} from './recovery.js';
export {
  type HostStresses,
  innerPressure,
  type ScalarLoad,
  type SolvedHost,
  type StillLoad,
  solveHost,
} from './reduce.js';
export { edgeOnly, reduceCondensed } from './reduce-condensed.js';
