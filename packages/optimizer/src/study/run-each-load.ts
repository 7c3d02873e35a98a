import { type DesignDocument, type LoadByItself, type ResolvedBrief, UnmetError } from '@lumenfront/core';
import { costOf, meets, sizeOf } from './objective.js';
import { runFront } from './run-front.js';
import { runInTurn } from './run-in-turn.js';
import type { RunOptions } from './session.js';

/**
 * Which outline each load of a brief asks for where it acts by itself, at its given size: a front for each, with the same seed and as many evaluations. Called off, it gives
 * those that have begun.
 */
export async function runEachLoad(brief: ResolvedBrief, options: RunOptions): Promise<LoadByItself[]> {
  const loads = Object.keys(brief.loads);
  const alone = loads.map((load) => ({ ...brief, cases: [{ name: load, factors: { [load]: 1 } }] }));
  let begun = 0;
  const announced: typeof runFront = (one, ofOne) => {
    options.workplace.note(`load ${begun + 1} of ${loads.length}: ${loads[begun++]} by itself`);
    return runFront(one, ofOne);
  };
  const outcomes = await runInTurn(announced, alone, options);
  return outcomes.map(({ evaluations, found }, k) => {
    const load = loads[k]!;
    if (found instanceof UnmetError) return { load, evaluations, unmet: found.message };
    return { load, ...endsOf(found.designs, found.allow, brief), evaluations };
  });
}

function endsOf(
  designs: readonly DesignDocument[],
  allow: number,
  { search: { objective } }: ResolvedBrief,
): Pick<LoadByItself, 'leastCost' | 'largest'> {
  const best = (list: readonly DesignDocument[], of: (one: DesignDocument) => number) =>
    list.reduce<DesignDocument | undefined>((a, b) => (a === undefined || of(b) < of(a) ? b : a), undefined);
  const leastCost = best(designs, (one) => costOf(objective, one));
  const largest = best(
    designs.filter((one) => meets(one, allow, objective)),
    (one) => -sizeOf(objective, one),
  );
  return { ...(leastCost === undefined ? {} : { leastCost }), ...(largest === undefined ? {} : { largest }) };
}
