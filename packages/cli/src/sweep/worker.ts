import { type CaseOutcome, type CaseRequest, caseRunner, performCase } from '@lumenfront/optimizer';
import { openWorkplace } from '../workplace.js';

const run = caseRunner(openWorkplace(1, () => {}));

/** Entry of a worker: runs one case in this thread alone, since the other workers have cases of their own. */
export default function perform(request: CaseRequest): Promise<CaseOutcome> {
  return performCase(run, request);
}
