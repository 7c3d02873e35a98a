import type { HostKind } from './contract.js';

/** Stands for `kinds.ts` under the condition `lumenfront-named-hosts`: the consumer registers the kinds that a bundle is to hold. */
export const kinds: Readonly<Record<string, HostKind>> = {};
