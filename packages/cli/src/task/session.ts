import { type ChannelTask, channelRoom, outlineOf, type ResolvedBrief } from '@lumenfront/core';
import type { FoundChannel, ScoreChannels, SearchOptions } from '@lumenfront/optimizer';
import { createScoring } from '../pool/index.js';
import { prepareTask } from '../prepare/index.js';
import { type DesignDocument, type ResultDocument, summariseStrength } from './documents.js';
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
  readonly score: ScoreChannels;
  /** How to search. */
  readonly search: SearchOptions;
  /** A channel that the search found, evaluated again with the nodes it needs, and twice those. */
  readonly design: (found: FoundChannel) => DesignDocument;
}

/** Prepares a brief, runs `run` on it, and lets go of the workers, whatever comes. */
export async function withSession<Result>(
  brief: ResolvedBrief,
  { workers, note, signal, onProgress }: RunOptions,
  run: (session: Session) => Promise<Result>,
): Promise<Result> {
  const task = prepareTask(brief, note);
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
  const design = ({ family, parameters }: FoundChannel): DesignDocument => ({
    family,
    parameters,
    ...figuresOf(judge(outlineOf({ family, parameters }, room))),
  });
  const scoring = await createScoring(task, workers);
  try {
    return await run({
      task,
      common,
      score: scoring.score,
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

function figuresOf({ design, strength }: JudgedChannel): Omit<DesignDocument, 'family' | 'parameters'> {
  const whole = strength();
  return { ...design, ...(whole === undefined ? {} : { strength: summariseStrength(whole) }) };
}
