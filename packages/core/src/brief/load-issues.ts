import type { z } from 'zod/mini';
import { hostKinds, hostLoads, type Joint, loadsOf } from '../host/index.js';
import { expectation, unknownKeys, valueAt } from '../input/index.js';

/**
 * Issues of the schema, which knows the loads of every host: unknown loads are told beside those that this brief may have, and a name that is
 * unknown under `loads` is not told again where a case asks for it.
 *
 * @param data of the brief, as it is written
 */
export function withOwnLoads(issues: readonly z.core.$ZodIssue[], data: unknown): z.core.$ZodIssue[] {
  const loads = valueAt(data, ['loads']);
  const written = typeof loads === 'object' && loads !== null ? Object.keys(loads) : [];
  return issues.flatMap((issue): z.core.$ZodIssue[] => {
    const [section, ...below] = issue.path;
    if (issue.code === 'invalid_type' && section === 'cases' && below.length === 1) {
      const example = `{ ${written.map((name) => `${name}: 1`).join(', ')} }`;
      const message = expectation(
        `a factor for each load that acts: ${written.join(', ')}`,
        `write, for example, ${example}`,
      );
      return [{ ...issue, message }];
    }
    if (issue.code !== 'unrecognized_keys') return [issue];
    if (section === 'loads' && below.length === 0) {
      const { kind, names } = loadsOfHost(data);
      const what = kind === undefined ? 'one of the loads' : `one of the loads of a ${kind}:`;
      return [{ ...issue, message: unknownKeys(issue.keys, names, what) }];
    }
    if (section !== 'cases' || below.length !== 1) return [issue];
    const keys = issue.keys.filter((key) => !written.includes(key));
    return keys.length === 0 ? [] : [{ ...issue, keys, message: unknownKeys(keys, written, 'a load under loads:') }];
  });
}

function loadsOfHost(data: unknown): { readonly kind?: string; readonly names: readonly string[] } {
  const host = valueAt(data, ['host']) as Joint | undefined;
  const known = hostKinds().find(({ kind }) => kind === host?.kind);
  const names = (known === undefined ? hostLoads() : loadsOf(host!)).map(({ name }) => name);
  return known === undefined ? { names } : { kind: known.kind, names };
}
