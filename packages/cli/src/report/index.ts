export type { ReportCase, ReportDesign, ReportRequest, ReportTable } from './data.js';
export { reportPage } from './report.js';
