export { readPage } from './client/read-page.js';
export type {
  PageData,
  ReportCase,
  ReportChannel,
  ReportDesign,
  ReportFailure,
  ReportRequest,
  ReportStrength,
  ReportTable,
} from './data.js';
export { type LiveData, liveData } from './live/engine.js';
export { pickedJoint } from './picked-joint.js';
export { reportPage } from './report.js';
