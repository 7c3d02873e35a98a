export type { PageData, ReportCase, ReportDesign, ReportRequest, ReportTable } from './data.js';
export { pickedJoint } from './picked-joint.js';
export { reportPage } from './report.js';
