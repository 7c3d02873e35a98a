import {
  array,
  boolean,
  config,
  discriminatedUnion,
  enum as enumOf,
  literal,
  NEVER,
  number,
  object,
  record,
  strictObject,
  string,
  toJSONSchema,
  tuple,
  union,
  unknown,
} from 'zod';

declare global {
  // Named by the library's types; merges with what browsers and Node declare, and stands in where neither is known.
  interface URL {}
}

/** What is used of the schema library, by its usual names: its namespace would bring its messages in fifty languages. */
const z = {
  array,
  boolean,
  discriminatedUnion,
  enum: enumOf,
  literal,
  NEVER,
  number,
  object,
  record,
  strictObject,
  string,
  toJSONSchema,
  tuple,
  union,
  unknown,
};

export type SchemaLibrary = typeof z;

/** Builds schemas that never try to compile themselves: under a strict content security policy the mere try is reported. */
export function buildWith<Schema>(build: (library: SchemaLibrary) => Schema): Schema {
  const { jitless } = config();
  config({ jitless: true });
  try {
    return build(z);
  } finally {
    config({ jitless });
  }
}
