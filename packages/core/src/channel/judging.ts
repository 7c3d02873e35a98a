import { createConductance } from '../flow/index.js';
import { createStrengthJudge } from './judge.js';
import { createStrengthProfile } from './strength-profile.js';

/** What searches judge by beyond stress and area: strength, of their scores and of descents with slopes, and flow. */
export interface Judging {
  readonly createConductance: typeof createConductance;
  readonly createStrengthJudge: typeof createStrengthJudge;
  readonly createStrengthProfile: typeof createStrengthProfile;
}

const all: Judging = { createConductance, createStrengthJudge, createStrengthProfile };

/** There from the start; `judging-on-demand.ts` stands in its place where parts of a bundle come on demand. */
export const judging = (): Judging => all;
export const isJudgingLoaded = (): boolean => true;
export const loadJudging = async (): Promise<void> => {};
