/** What is used of the library, so that bundlers may leave out the rest; loaded on first use. */
export { isAlias, isMap, isScalar, isSeq, LineCounter, parseDocument } from 'yaml';
