import { briefOfChoices, openChoices, originOf, problemsOfChoices } from './choices.js';
import { withOwnLoads } from './load-issues.js';
import { soundEntries, soundSections, tellBeside } from './sound-parts.js';

const all = {
  ...{ briefOfChoices, openChoices, originOf, problemsOfChoices },
  ...{ soundEntries, soundSections, tellBeside, withOwnLoads },
};

/** What tells what is wrong with briefs, and what they leave open; `seldom-on-demand.ts` stands in its place where parts of a bundle come on demand. */
export const loadSeldom = async (): Promise<typeof all> => all;
