import type { SchemaLibrary } from './schema-library.js';

/** Loads the schema library on first use: it costs 60 ms, which whoever reads neither briefs nor results should not pay. */
export async function loadSchemaLibrary(): Promise<{
  buildWith<Schema>(build: (library: SchemaLibrary) => Schema): Schema;
}> {
  return import('./schema-library.js');
}
