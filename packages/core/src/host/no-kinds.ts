import type { HostBrief, HostCheck, HostKind } from './contract.js';

/**
 * Stand for `kinds.ts`, `briefs.ts` and `checks.ts` where a bundle is to hold no kind from the start: under `lumenfront-named-hosts` the consumer
 * registers what it is to hold, elsewhere each comes when a brief names it (see `loadHost`; checks are there wherever something is meshed).
 */
export const kinds: Readonly<Record<string, HostKind>> = {};
export const briefs: Readonly<Record<string, HostBrief>> = {};
export const checks: Readonly<Record<string, HostCheck>> = {};
