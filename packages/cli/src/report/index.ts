export { readPage } from './client/read-page.js';
export { unpackText } from './client/unpack-text.js';
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
export { type LiveData, liveData } from './live/live-data.js';
export { pickedJoint } from './picked-joint.js';
export { reportPage } from './report.js';
export { strengthFigures } from './strength-figures.js';
