export { type Doubt, doubtsAbout, listed, signed, tellDoubts } from './doubt.js';
export {
  choice,
  expectation,
  list,
  quantity,
  section,
  textLine,
  unknownKeys,
  userName,
  type Zod,
} from './field.js';
export { jsonSchemaOf, loadSchemaLibrary } from './load-schema-library.js';
export { nearestName } from './nearest-name.js';
export { overlaps, readPath, withValue, writePath } from './path.js';
export { type BriefOrigin, type BriefPath, formatPath, formatReceived, parsePath, valueAt } from './place.js';
export { ProblemList } from './problems.js';
export { type Reading, readingsOf, rounded } from './readings.js';
