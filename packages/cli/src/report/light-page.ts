import type { ReportRequest } from './data.js';
import { reportPage } from './report.js';

/** A page of more bytes opens slowly, and mail refuses it. */
const mostBytes = 3_000_000;
/** So many tell a front, whatever they take. */
const leastShown = 25;

/** The page of a request, with every second of its designs left out as often as the page would be too large, and what it shows. */
export async function lightPage(
  request: ReportRequest,
  most = mostBytes,
): Promise<{ readonly text: string; readonly shown: ReportRequest }> {
  const text = await reportPage(request);
  if (new Blob([text]).size <= most || request.designs.length <= leastShown) return { text, shown: request };
  return lightPage(halved(request), most);
}

/** With the first and the last design, the one that is shown first, and those around which stress was solved. */
function halved({ designs, picked = 0, all = designs.length, ...rest }: ReportRequest): ReportRequest {
  const last = designs.length - 1;
  const kept = designs.filter((one, i) => (last - i) % 2 === 0 || i === 0 || i === picked || one.field !== undefined);
  return { ...rest, all, designs: kept, picked: kept.indexOf(designs[picked]!) };
}
