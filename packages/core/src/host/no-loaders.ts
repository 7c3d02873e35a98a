import type { KnownKind } from './contract.js';

/** Kinds that are built in, but come on demand: none, but under the condition `lumenfront-hosts-on-demand`. */
export const loaders: Readonly<Record<string, () => Promise<KnownKind>>> = {};
