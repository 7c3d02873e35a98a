export { readPage } from './client/read-page.js';
export { unpackBytes } from './client/unpack-bytes.js';
export type {
  ChoiceLine,
  PageData,
  ReportCase,
  ReportChannel,
  ReportCopy,
  ReportDesign,
  ReportFailure,
  ReportRequest,
  ReportStrength,
  ReportTable,
} from './data.js';
export { numberOf } from './data.js';
export { lightPage } from './light-page.js';
export { type LiveData, liveData } from './live/live-data.js';
export { pickedJoint } from './picked-joint.js';
export { reportPage } from './report.js';
export { strengthFigures } from './strength-figures.js';
