import { runFront, runPick } from '@lumenfront/optimizer';
import { openWorkplace } from '../workplace.js';
import { type CaseOutcome, type CaseRequest, type CaseRunner, performCase, type RunKind } from './case.js';

const options = { workplace: openWorkplace(1, () => {}) };

const runners: Readonly<Record<RunKind, CaseRunner>> = {
  pick: (brief) => runPick(brief, options),
  front: (brief) => runFront(brief, options),
};

/** Entry of a worker: runs one case in this thread alone, since the other workers have cases of their own. */
export default function perform(request: CaseRequest): Promise<CaseOutcome> {
  return performCase((brief, kind) => runners[kind](brief, kind), request);
}
