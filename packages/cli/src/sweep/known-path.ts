import { type BriefPath, briefSchema, InputError, writePath } from '@lumenfront/core';

/** The few keywords of JSON Schema that say which keys and entries there are, and the brief's own for the unit. */
interface Schema {
  readonly unit?: string;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly additionalProperties?: Schema | false;
  readonly items?: Schema;
  readonly prefixItems?: readonly Schema[];
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
}

/**
 * Makes sure that a brief can have a value at a path: keys of the schema, whether the brief gives them or leaves them to their
 * defaults, names that the brief gives (materials, cases), and entries of its lists.
 *
 * @param data of the brief
 * @param place where the path was written, for messages
 * @returns the unit of the value, `undefined` for words, mappings and pure numbers
 * @throws InputError naming what there is instead
 */
export async function checkPath(path: BriefPath, data: unknown, place: string): Promise<string | undefined> {
  let schemas = flatten([(await briefSchema(data)) as Schema]);
  let value = data;
  for (const [depth, step] of path.entries()) {
    const refuse = (expected: string, remedy: string) =>
      new InputError({ path: place, expected, received: writePath(path.slice(0, depth + 1)), remedy });
    const parent = depth === 0 ? 'the brief' : writePath(path.slice(0, depth));
    const given = typeof value === 'object' && value !== null && Object.hasOwn(value, step);
    if (typeof step === 'number') {
      const entries = flatten(schemas.flatMap((schema) => [...(schema.prefixItems ?? []), schema.items ?? []].flat()));
      if (entries.length === 0) throw refuse(`a place in ${parent}, which is no list`, 'name one of its values');
      if (!given || !Array.isArray(value))
        throw refuse(
          `an entry of ${parent} that the brief gives, counted from 0`,
          'vary the whole list, or add it to the brief',
        );
      schemas = entries;
    } else {
      const names = schemas.flatMap(({ properties }) => Object.keys(properties ?? {}));
      const known = schemas.flatMap(({ properties }) =>
        properties !== undefined && Object.hasOwn(properties, step) ? [properties[step]!] : [],
      );
      const free = schemas.flatMap(({ additionalProperties }) => additionalProperties || []);
      if (known.length === 0 && free.length === 0)
        throw refuse(
          names.length === 0 ? `${parent}, a single value` : `one of ${[...new Set(names)].join(', ')} in ${parent}`,
          'correct the path; lumenfront brief --schema tells what there is',
        );
      // A name of the user's own: one that is new can only be given whole.
      if (known.length === 0 && !given && depth < path.length - 1) {
        const there = typeof value === 'object' && value !== null ? Object.keys(value) : [];
        throw refuse(
          `a name under ${parent}: ${there.join(', ') || 'none yet'}`,
          'correct the name, or add it to the brief',
        );
      }
      schemas = flatten(known.length > 0 ? known : free);
    }
    value = given ? (value as Record<string | number, unknown>)[step] : undefined;
  }
  const unit = schemas[0]?.unit;
  return unit === '1' ? undefined : unit;
}

/** Alternatives of a schema one by one. */
function flatten(schemas: readonly Schema[]): Schema[] {
  return schemas.flatMap((schema) => {
    const alternatives = [...(schema.anyOf ?? []), ...(schema.oneOf ?? [])];
    return alternatives.length === 0 ? [schema] : flatten(alternatives);
  });
}
