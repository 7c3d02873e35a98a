import { readVersion } from '../version.js';

/** What a result was made with. */
export const versions: Readonly<Record<string, string>> = {
  lumenfront: readVersion(),
  node: process.versions.node,
};
