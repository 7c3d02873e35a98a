export { exitCodes } from './exit-codes.js';
export type { Streams } from './output.js';
export { run } from './run.js';
