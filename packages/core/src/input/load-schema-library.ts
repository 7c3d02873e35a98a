import type { core } from 'zod/mini';
import type { SchemaLibrary } from './schema-library.js';

/** Loads the schema library on first use: it takes time and room, which whoever reads neither briefs nor results should not pay. */
export async function loadSchemaLibrary(): Promise<SchemaLibrary> {
  return (await import('./schema-library.js')).library;
}

/** JSON Schema (draft 2020-12) of what a schema reads; its writer is as large as the library, and loaded by itself. */
export async function jsonSchemaOf(schema: core.$ZodType): Promise<Record<string, unknown>> {
  const { toJSONSchema } = await import('./json-schema.js');
  return toJSONSchema(schema, { io: 'input', target: 'draft-2020-12' }) as Record<string, unknown>;
}
