export { Archive, type ArchiveOptions } from './archive.js';
export { bestBySize, evenlySpread } from './by-size.js';
export { referenceFor, thinOut } from './contribution.js';
export { type Gap, invertedGenerationalDistance, largestGap } from './distance.js';
export { covers, dominates, nonDominated } from './dominance.js';
export { hypervolume, type Point } from './hypervolume.js';
export { ranks } from './rank.js';
