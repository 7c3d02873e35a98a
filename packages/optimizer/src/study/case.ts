import {
  type BriefOrigin,
  canonicalBrief,
  canonicalJson,
  type FrontDocument,
  InputError,
  type PickDocument,
  type ResolvedBrief,
  resolveBrief,
  type SweepLine,
  sha256Hex,
  UnmetError,
} from '@lumenfront/core';
import { runFront } from './run-front.js';
import { runPick } from './run-pick.js';
import type { Workplace } from './workplace.js';

/** What is run for every case: the command of this name. */
export type RunKind = SweepLine['run'];

/**
 * Runs one case, and gives what its command gives with `--json`: plain data, the same for the same brief.
 *
 * @throws UnmetError if the brief cannot be met
 */
export type CaseRunner = (brief: ResolvedBrief, kind: RunKind) => Promise<FrontDocument | PickDocument>;

/** What a worker is given. */
export interface CaseRequest {
  /** See `identifyCase`. */
  readonly id: string;
  readonly kind: RunKind;
  readonly brief: ResolvedBrief;
}

/** What became of a case; the same wherever and whenever it ran, so no times, places or traces in it. */
export type CaseOutcome =
  | Pick<Extract<SweepLine, { status: 'done' }>, 'status' | 'result'>
  | Pick<Extract<SweepLine, { status: 'unmet' }>, 'status' | 'error' | 'leastPeak'>
  | Pick<Extract<SweepLine, { status: 'failed' }>, 'status' | 'error'>;

/** One case of a sweep. */
export interface SweepCase {
  readonly id: string;
  readonly kind: RunKind;
  /** What differs in it, by path. */
  readonly vary: Readonly<Record<string, unknown>>;
  /** The brief, or why there is none. */
  readonly brief: ResolvedBrief | InputError;
}

/**
 * The name of a case: a hash of everything that can change its result, which is the resolved brief (or, where it does not resolve,
 * its data), what is run, and the version of the program.
 */
export function identifyCase(
  brief: ResolvedBrief | { readonly data: unknown },
  kind: RunKind,
  version: string,
): string {
  const content = 'joint' in brief ? { brief: canonicalBrief(brief) } : { data: canonicalJson(brief.data) };
  return sha256Hex(canonicalJson({ ...content, kind, version }));
}

/** Resolves the brief of a variant; one that does not resolve is a case that has failed already. `textOf`: of the files that it names. */
export async function openCase(
  { vary, data }: { readonly vary: SweepCase['vary']; readonly data: unknown },
  kind: RunKind,
  version: string,
  textOf?: BriefOrigin['textOf'],
): Promise<SweepCase> {
  try {
    const brief = await resolveBrief(data, textOf === undefined ? {} : { textOf });
    return { id: identifyCase(brief, kind, version), kind, vary, brief };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { id: identifyCase({ data }, kind, version), kind, vary, brief: error };
  }
}

/** Runs cases in a workplace. */
export function caseRunner(workplace: Workplace): CaseRunner {
  return (brief, kind) => (kind === 'pick' ? runPick(brief, { workplace }) : runFront(brief, { workplace }));
}

/** Runs a case; whatever is thrown becomes its outcome. */
export async function performCase(run: CaseRunner, { brief, kind }: CaseRequest): Promise<CaseOutcome> {
  try {
    return { status: 'done', result: await run(brief, kind) };
  } catch (error) {
    return failedOutcome(error);
  }
}

/** What a sweep records of a case that threw: what cannot be met and what is wrong in the brief by their kind, all else as a failure. */
export function failedOutcome(error: unknown): CaseOutcome {
  const message = error instanceof Error ? error.message : String(error);
  if (error instanceof InputError)
    return { status: 'failed', error: { kind: 'bad input', message, problems: error.problems } };
  if (error instanceof UnmetError) {
    const { leastPeak } = error;
    return {
      status: 'unmet',
      error: { kind: 'cannot be met', message },
      ...(leastPeak === undefined ? {} : { leastPeak }),
    };
  }
  return { status: 'failed', error: { kind: 'internal error', message } };
}
