import {
  channelRoom,
  createChannelReporter,
  type DesignDocument,
  outlineOf,
  type ResolvedBrief,
} from '@lumenfront/core';
import type { ChannelEvaluator, FoundChannel, SearchOptions } from '../channel/index.js';
import { createEvaluator } from './evaluator.js';
import { noteModel } from './note-model.js';
import { figuresOf, referenceDesign } from './reference.js';
import { refuseChoices } from './refuse-choices.js';
import type { Workplace } from './workplace.js';

/** What every study takes. */
export interface RunOptions extends Pick<SearchOptions, 'onProgress' | 'signal'> {
  readonly workplace: Workplace;
}

/** A brief, made ready to be searched. */
export interface Session {
  readonly reference: DesignDocument;
  readonly evaluator: ChannelEvaluator;
  /** How to search. */
  readonly search: SearchOptions;
  /**
   * A channel that the search found, evaluated again with the nodes it needs, and twice those. Once: a family's front and the front
   * over all families share designs.
   */
  readonly design: (found: DesignWish) => DesignDocument;
}

/** What a result holds of a found channel; the rest is evaluated again. */
type DesignWish = Pick<FoundChannel, 'family' | 'parameters' | 'locallyOptimalWithin'>;

/** Prepares a brief, runs `run` on it, and lets go of the workers, whatever comes. */
export async function withSession<Result>(
  brief: ResolvedBrief,
  { workplace, signal, onProgress }: RunOptions,
  run: (session: Session) => Promise<Result>,
): Promise<Result> {
  refuseChoices(brief);
  const task = workplace.prepare(brief);
  noteModel(task.model, workplace);
  const room = channelRoom(task);
  const report = createChannelReporter(task);
  const evaluate = createEvaluator(brief, task, workplace);
  const reference = referenceDesign(brief, evaluate);
  const designs = new Map<string, DesignDocument>();
  const design = ({ family, parameters, locallyOptimalWithin }: DesignWish): DesignDocument => {
    const key = JSON.stringify([family, parameters]);
    let known = designs.get(key);
    if (known === undefined) {
      known = {
        family,
        parameters,
        ...figuresOf(report(outlineOf({ family, parameters }, room))),
        ...(locallyOptimalWithin === undefined ? {} : { locallyOptimalWithin }),
      };
      designs.set(key, known);
    }
    return known;
  };
  const scoring = await workplace.evaluate(task);
  try {
    return await run({
      reference,
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
