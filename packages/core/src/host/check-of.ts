import { checks } from '#checks';
import { InputError } from '../errors.js';
import type { EdgeCurve } from '../mesh/triangle/index.js';
import type { CrackCheck, HostCheck, Joint, MeshedLoads } from './contract.js';
import type { Loads } from './load.js';
import { hostKind } from './registry.js';

const builtIn: Readonly<Record<string, HostCheck>> = checks;

/**
 * The independent check: a section with its channels (or without) in triangles, every load solved at its given size. Throws InputError for a
 * kind of host that was registered without its check.
 */
export function meshJoint(joint: Joint, loads: Loads, curves: readonly EdgeCurve[], coarseness: number): MeshedLoads {
  const { kind, mesh = builtIn[kind]?.mesh } = hostKind(joint.kind);
  if (mesh === undefined)
    throw new InputError({
      path: 'host.kind',
      expected: 'a kind of host that is known with its check',
      received: kind,
      remedy: 'register it with its check as well: registerHost({ ...teeHost, ...teeCheck })',
    });
  return mesh(joint, loads, curves, coarseness);
}

/** Cracks that run out of a joint's pocket; `undefined` for a kind of host whose cracks are not meshed. */
export function cracksOf({ kind }: Joint): CrackCheck | undefined {
  return hostKind(kind).cracks ?? builtIn[kind]?.cracks;
}
