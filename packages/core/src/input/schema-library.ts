import {
  _default,
  array,
  boolean,
  type core,
  discriminatedUnion,
  enum as enumOf,
  exactOptional,
  extend,
  globalRegistry,
  gt,
  gte,
  int,
  literal,
  lt,
  lte,
  maxLength,
  minLength,
  NEVER,
  nullable,
  nullish,
  number,
  object,
  optional,
  pipe,
  prefault,
  record,
  regex,
  strictObject,
  string,
  transform as transformation,
  tuple,
  union,
  unknown,
  type ZodMiniPipe,
  type ZodMiniTransform,
  type ZodMiniType,
} from 'zod/mini';

declare global {
  // Named by the library's types; merges with what browsers and Node declare, and stands in where neither is known.
  interface URL {}
}

/** Adds to what is told of a schema, for its JSON Schema. */
function meta<Schema extends ZodMiniType>(schema: Schema, told: core.JSONSchemaMeta): Schema {
  globalRegistry.add(schema, { ...globalRegistry.get(schema), ...told });
  return schema;
}

/** What is read goes on through a function. */
function transform<Schema extends ZodMiniType, Out>(
  schema: Schema,
  change: (value: core.output<Schema>, context: core.ParsePayload) => Out,
): ZodMiniPipe<Schema, ZodMiniTransform<Out, core.output<Schema>>> {
  return pipe(schema, transformation(change)) as never;
}

/**
 * What is used of the schema library, in its form for bundles (a third of the size) and by its usual names; what is a method elsewhere takes
 * the schema first.
 */
const z = {
  array,
  boolean,
  default: _default,
  discriminatedUnion,
  enum: enumOf,
  exactOptional,
  extend,
  gt,
  gte,
  int,
  literal,
  lt,
  lte,
  maxLength,
  meta,
  minLength,
  NEVER,
  nullable,
  nullish,
  number,
  object,
  optional,
  prefault,
  record,
  regex,
  strictObject,
  string,
  transform,
  tuple,
  union,
  unknown,
};

export type SchemaLibrary = typeof z;

export { z as library };
