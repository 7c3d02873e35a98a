import { type ChannelTask, curvatureFamily, curvatureParameters, type OutlineData } from '@lumenfront/core';
import {
  createChannelEvaluator,
  createOutlineReports,
  type DescentRequest,
  type DescentResult,
  type RefinedOutline,
  type RefineRequest,
  type RefineResult,
  type ReportedOutline,
  type ReportOutlines,
  type Scoring,
} from '@lumenfront/optimizer';
import { openThreads } from './threads.js';

/** Parameter vectors of one family, to be scored. */
export interface ScoreRequest {
  readonly family: number;
  readonly vectors: readonly Float64Array[];
}

export interface DescendRequest {
  readonly family: number;
  readonly request: DescentRequest;
}

/** Messages per worker and batch of scores: enough that none waits long for the last, few enough that sending costs little. */
const messagesPerWorker = 4;
/** Outlines to a message, at least: one alone takes little longer than sending it. */
const leastInMessage = 2;

/** Workers run the built file, whether this one runs from `src` or from `dist`. */
const workerFile = new URL('../../dist/pool/worker.js', import.meta.url);

const partsOf = <Part>(all: readonly Part[], workers: number): Part[][] => {
  const most = Math.max(leastInMessage, Math.ceil(all.length / (messagesPerWorker * workers)));
  return Array.from({ length: Math.ceil(all.length / most) }, (_, k) => all.slice(k * most, (k + 1) * most));
};

/** A scoring, and who reports beside a search: somebody who is idle now. */
interface SharedScoring extends Scoring {
  beside(): ReportOutlines | undefined;
}

/**
 * Scoring on so many worker threads; with one, in this thread. The scores do not depend on how many there are. To be closed after use: workers keep the process alive.
 *
 * @param ahead who is idle while a front is searched for reports what is found, beside a search in this thread so many others
 */
export async function createScoring(task: ChannelTask, workers: number, ahead?: { idle: number }): Promise<Scoring> {
  if (workers > 1) {
    const scoring = await scoringOn(task, workers);
    return ahead === undefined ? scoring : reportAhead(scoring);
  }
  if (ahead !== undefined && ahead.idle > 0) return reportAhead(scoringBeside(task, ahead.idle));
  return { evaluator: createChannelEvaluator(task), report: createOutlineReports(task), close: async () => {} };
}

async function scoringOn(task: ChannelTask, workers: number): Promise<SharedScoring> {
  const threads = await openThreads<object, never>({ workerFile, workers, workerData: task });
  /** Messages that are not answered yet. */
  let waiting = 0;
  const ask = async (request: object, name: string): Promise<never> => {
    waiting++;
    try {
      return await threads.run(request, name);
    } finally {
      waiting--;
    }
  };
  const score = (request: ScoreRequest): Promise<Float64Array[]> => ask(request, 'score');
  const descend = (request: DescendRequest): Promise<DescentResult[]> => ask(request, 'descend');
  const refine = (request: RefineRequest): Promise<RefineResult[]> => ask(request, 'refine');
  const report = (outlines: readonly OutlineData[]): Promise<ReportedOutline[]> => ask(outlines, 'report');
  return {
    evaluator: {
      task,
      score: async (family, vectors) =>
        (await Promise.all(partsOf(vectors, workers).map((part) => score({ family, vectors: part })))).flat(),
      descend: async (family, requests) =>
        (await Promise.all(requests.map((request) => descend({ family, request })))).flat(),
      refine: async (requests) => (await Promise.all(requests.map(refine))).flat(),
    },
    report: async (outlines) => (await Promise.all(partsOf(outlines, workers).map(report))).flat(),
    beside: () => (waiting < workers ? report : undefined),
    close: threads.close,
  };
}

/** Searches in this thread; so many others, which start when first asked, report. */
function scoringBeside(task: ChannelTask, idle: number): SharedScoring {
  let threads: ReturnType<typeof openThreads<object, ReportedOutline[]>> | undefined;
  const report = async (outlines: readonly OutlineData[]): Promise<ReportedOutline[]> => {
    threads ??= openThreads({ workerFile, workers: idle, workerData: task });
    const { run } = await threads;
    return (await Promise.all(partsOf(outlines, idle).map((part) => run(part, 'report')))).flat();
  };
  return {
    evaluator: createChannelEvaluator(task),
    report,
    beside: () => report,
    close: async () => (await threads)?.close(),
  };
}

/** Outlines that are asked for at once: few, as what a search finds next may beat them; and what they may lack, as a design of a front may. */
const atOnce = 8;
const mostLack = 1e-5;

const keyOf = (outline: OutlineData): string => JSON.stringify(outline);

/**
 * Whoever is idle while a front is searched for reports what stands on it so far, most of which will stand there at the end. The reports are the same, whoever makes them and when.
 */
function reportAhead({ evaluator, report, beside, close }: SharedScoring): Scoring {
  const known = new Map<string, Promise<ReportedOutline | undefined>>();
  const asked = new Set<RefinedOutline>();
  let front: readonly RefinedOutline[] = [];
  let reporting = false;
  let closed = false;
  const goOn = async (): Promise<void> => {
    if (reporting) return;
    reporting = true;
    while (!closed) {
      const next = front.filter((one) => !asked.has(one)).slice(0, atOnce);
      const idle = next.length > 0 ? beside() : undefined;
      if (idle === undefined) break;
      // What goes wrong here goes wrong again where it is asked for.
      const outlines = next.map(({ design }) => ({ family: curvatureFamily, parameters: curvatureParameters(design) }));
      const answers = idle(outlines).catch((): ReportedOutline[] => []);
      outlines.forEach((outline, k) => {
        asked.add(next[k]!);
        known.set(
          keyOf(outline),
          answers.then((all) => all[k]),
        );
      });
      await answers;
    }
    reporting = false;
  };
  const refineOne = async (request: RefineRequest): Promise<RefineResult> => {
    const [result] = await evaluator.refine([request]);
    let least = Number.POSITIVE_INFINITY;
    front = [...front, ...result!.reached.filter(({ violation }) => violation <= mostLack)]
      .sort((a, b) => b.area - a.area)
      .filter(({ cost }) => {
        const better = cost < least;
        least = Math.min(least, cost);
        return better;
      });
    void goOn();
    return result!;
  };
  return {
    evaluator: { ...evaluator, refine: (requests) => Promise.all(requests.map(refineOne)) },
    async report(outlines) {
      front = [];
      const answers = await Promise.all(outlines.map((outline) => known.get(keyOf(outline))));
      const missed = outlines.filter((_, k) => answers[k] === undefined);
      const reported = (await report(missed)).values();
      return answers.map((answer) => answer ?? reported.next().value!);
    },
    close() {
      closed = true;
      return close();
    },
  };
}
