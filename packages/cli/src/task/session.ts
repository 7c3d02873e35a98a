import { type ChannelObjective, type ChannelTask, channelRoom, outlineOf, type ResolvedBrief } from '@lumenfront/core';
import type { ChannelEvaluator, FoundChannel, SearchOptions } from '@lumenfront/optimizer';
import { createScoring } from '../pool/index.js';
import { prepareTask } from '../prepare/index.js';
import type { DesignDocument, ResultDocument } from './documents.js';
import { createEvaluator } from './evaluator.js';
import { createJudge, type JudgedChannel } from './judge.js';
import { referenceCurve, referenceData } from './reference.js';
import { versions } from './versions.js';

export interface RunOptions extends Pick<SearchOptions, 'onProgress' | 'signal'> {
  /** Threads that evaluate outlines; the result does not depend on how many. */
  readonly workers: number;
  /** Told what is worth knowing on the way. */
  readonly note: (text: string) => void;
}

/** A brief, made ready to be searched. */
export interface Session {
  readonly task: ChannelTask;
  /** What the result says whatever is found. */
  readonly common: ResultDocument;
  readonly evaluator: ChannelEvaluator;
  /** How to search. */
  readonly search: SearchOptions;
  /**
   * A channel that the search found, evaluated again with the nodes it needs, and twice those. Once: a family's front and the front
   * over all families share designs.
   */
  readonly design: (found: Pick<FoundChannel, 'family' | 'parameters'>) => DesignDocument;
}

/**
 * Prepares a brief, runs `run` on it, and lets go of the workers, whatever comes. `objective` is what the search trades, where that is not
 * area against the peak: only fronts have a choice.
 */
export async function withSession<Result>(
  brief: ResolvedBrief,
  { workers, note, signal, onProgress }: RunOptions,
  run: (session: Session) => Promise<Result>,
  objective?: ChannelObjective,
): Promise<Result> {
  const prepared = prepareTask(brief, note);
  const task = objective === undefined ? prepared : { ...prepared, objective };
  const room = channelRoom(task);
  const judge = createJudge(task, brief.strength);
  const { reference } = brief.channel;
  const evaluate = createEvaluator(brief, task, note);
  const common = {
    title: brief.title,
    reference: {
      ...referenceData(reference),
      ...figuresOf(evaluate(referenceCurve(reference), 'the reference channel')),
    },
    allow: brief.allow,
    cautions: brief.cautions,
    versions,
  };
  const designs = new Map<string, DesignDocument>();
  const design = ({ family, parameters }: Pick<FoundChannel, 'family' | 'parameters'>): DesignDocument => {
    const key = JSON.stringify([family, parameters]);
    let known = designs.get(key);
    if (known === undefined) {
      known = { family, parameters, ...figuresOf(judge(outlineOf({ family, parameters }, room))) };
      designs.set(key, known);
    }
    return known;
  };
  const scoring = await createScoring(task, workers);
  try {
    return await run({
      task,
      common,
      evaluator: scoring.evaluator,
      search: {
        ...brief.search,
        ...(signal === undefined ? {} : { signal }),
        ...(onProgress === undefined ? {} : { onProgress }),
      },
      design,
    });
  } finally {
    await scoring.close();
  }
}

function figuresOf({ design, strengthSummary }: JudgedChannel): Omit<DesignDocument, 'family' | 'parameters'> {
  const strength = strengthSummary();
  return { ...design, ...(strength === undefined ? {} : { strength }) };
}
