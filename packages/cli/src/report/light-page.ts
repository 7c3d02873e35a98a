import { numberOf, type ReportRequest } from './data.js';
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
  const fewer = halved(request);
  const isLeast = request.designs.length <= Math.max(leastShown, fewer.designs.length);
  return isLeast || new Blob([text]).size <= most ? { text, shown: request } : lightPage(fewer, most);
}

/** With the first and the last design, the one that is shown first, and those that are wanted. */
function halved(request: ReportRequest): ReportRequest {
  const { designs, picked = 0, all = designs.length, wanted = [] } = request;
  const last = designs.length - 1;
  const isKept = (i: number) => (last - i) % 2 === 0 || i === 0 || i === picked;
  const kept = designs.filter((one, i) => isKept(i) || wanted.includes(numberOf(one, i)));
  return { ...request, all, designs: kept, picked: kept.indexOf(designs[picked]!) };
}
