import type { HostBrief, HostCheck, HostKind } from './contract.js';

/** Stand for `kinds.ts`, `briefs.ts` and `checks.ts` under the condition `lumenfront-named-hosts`: the consumer registers what a bundle is to hold. */
export const kinds: Readonly<Record<string, HostKind>> = {};
export const briefs: Readonly<Record<string, HostBrief>> = {};
export const checks: Readonly<Record<string, HostCheck>> = {};
