import { InputError, scoreSize } from '@lumenfront/core';
import type { ChannelEvaluator } from './evaluator.js';

/** An evaluator of somebody else's whose answers are counted: with one missing, a search would go wrong without a word. */
export function checkedEvaluator(given: ChannelEvaluator): ChannelEvaluator {
  return {
    task: given.task,
    async score(family, vectors) {
      const scores = counted('score', await given.score(family, vectors), vectors.length);
      for (const score of scores) counted('score', score, scoreSize, 'values to a score');
      return scores;
    },
    descend: async (family, requests) => counted('descend', await given.descend(family, requests), requests.length),
    refine: async (requests) => counted('refine', await given.refine(requests), requests.length),
  };
}

function counted<Answer extends ArrayLike<unknown>>(
  name: string,
  answer: Answer,
  expected: number,
  what = 'answers, in the order of what was asked',
): Answer {
  if (answer.length === expected) return answer;
  throw new InputError({
    path: `evaluator.${name}`,
    expected: `${expected} ${what}`,
    received: String(answer.length),
    remedy: 'answer as createChannelEvaluator does',
  });
}
