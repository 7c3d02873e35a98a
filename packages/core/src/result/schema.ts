import type { z } from 'zod/mini';
import { jsonSchemaOf, loadSchemaLibrary } from '../input/index.js';
import { check } from './check.js';
import { delivery } from './delivery.js';
import type { Immutable } from './figure.js';
import { front } from './front.js';
import { pick } from './pick.js';
import { scatter, scatterFront } from './scatter.js';
import { sweepLine } from './sweep-line.js';

/** Every result by its kind. A further one is a file beside this one and a line here. */
const builders = {
  front,
  pick,
  check,
  deliver: delivery,
  scatter,
  'scatter-front': scatterFront,
  'sweep-line': sweepLine,
};

/** Kind of a result, as its `kind` says. */
export type ResultKind = keyof typeof builders;
/** The result of a kind. */
export type ResultOf<Kind extends ResultKind> = Immutable<z.output<ReturnType<(typeof builders)[Kind]>>>;

/** Every kind of result. */
export const resultKinds = Object.keys(builders) as readonly ResultKind[];

export async function loadResultSchema(kind: ResultKind): Promise<z.ZodMiniType> {
  return builders[kind](await loadSchemaLibrary());
}

/** The form of a result as JSON Schema (draft 2020-12); `unit` is an extra keyword. */
export async function resultSchema(kind: ResultKind): Promise<Record<string, unknown>> {
  return { ...(await jsonSchemaOf(await loadResultSchema(kind))), title: `lumenfront ${kind}` };
}
