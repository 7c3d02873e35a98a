export { exitCodes, type Streams } from './output.js';
export { run } from './run.js';
