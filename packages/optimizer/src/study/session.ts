import type { DesignDocument, ResolvedBrief } from '@lumenfront/core';
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
   * Channels that the search found, evaluated again with the nodes they need, and twice those. Each once: a family's front and the front
   * over all families share designs.
   */
  readonly designs: (found: readonly DesignWish[]) => Promise<DesignDocument[]>;
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
  const evaluate = createEvaluator(brief, task, workplace);
  const reference = referenceDesign(brief, evaluate);
  const known = new Map<string, DesignDocument>();
  const keyOf = ({ family, parameters }: DesignWish) => JSON.stringify([family, parameters]);
  const scoring = await workplace.evaluate(task);
  const designs = async (found: readonly DesignWish[]): Promise<DesignDocument[]> => {
    const fresh = new Map(found.map((one) => [keyOf(one), one]));
    for (const key of known.keys()) fresh.delete(key);
    const outlines = [...fresh.values()].map(({ family, parameters }) => ({ family, parameters }));
    const reported = await scoring.report(outlines);
    for (const [i, [key, { family, parameters, locallyOptimalWithin }]] of [...fresh].entries()) {
      const certificate = locallyOptimalWithin === undefined ? {} : { locallyOptimalWithin };
      known.set(key, { family, parameters, ...figuresOf(reported[i]!), ...certificate });
    }
    return found.map((one) => known.get(keyOf(one))!);
  };
  try {
    return await run({
      reference,
      evaluator: scoring.evaluator,
      search: {
        ...brief.search,
        ...(signal === undefined ? {} : { signal }),
        ...(onProgress === undefined ? {} : { onProgress }),
      },
      designs,
    });
  } finally {
    await scoring.close();
  }
}
