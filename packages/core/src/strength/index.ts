export { type CrackCourse, type CrackPath, crackCourse } from './crack-course.js';
export { growthFactor, type ReleasedEnergy, releasedEnergy, type Toughness } from './crack-growth.js';
export { delaminationFactor, principalFactor, tensionFactor } from './criteria.js';
export type { CharacteristicDistance } from './distance-strength.js';
export { type FatigueLife, type FatigueSlopes, fatigueLives, slopeOf, usualFatigueSlopes } from './fatigue.js';
export { type PlaneStress, regularStress } from './filler-field.js';
export type { FailureCriterion, FirstFailure } from './first-failure.js';
export { governingPlaces, type JudgedJoint, strengthDifference } from './governing-places.js';
export { cuspDistanceOf, type Healed, type StrengthDetail, type StrengthOptions } from './joint-judge.js';
export {
  type CaseStrength,
  type CaseSurvey,
  createStrengthModel,
  type JointStrength,
  type StrengthModel,
  type StrengthSurvey,
} from './joint-strength.js';
export { type CrackInCase, type CrackWish, type MeshedCrackReport, meshedCracks } from './meshed-cracks.js';
export { type MeshedStrengthOptions, meshedStrength } from './meshed-strength.js';
export { createPlaceMoments, type PlaceMoments } from './place-moments.js';
export type { FailurePlace } from './place-strengths.js';
export type { EdgeTension, FailureStress } from './section-strength.js';
export type { CaseStretch, StrengthRows } from './strength-rows.js';
