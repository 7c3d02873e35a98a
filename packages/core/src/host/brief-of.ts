import { briefs } from '#briefs';
import type { HostBrief, HostKind } from './contract.js';
import { hostKinds } from './registry.js';

const builtIn: Readonly<Record<string, HostBrief>> = briefs;

/** A kind of host with how briefs tell of it. */
export type BriefKind = HostKind & HostBrief;

/** All kinds of host that briefs can tell of, the built-in ones first. */
export function briefKinds(): readonly BriefKind[] {
  return hostKinds().flatMap((host) => {
    const whole = { ...builtIn[host.kind], ...host };
    return isTold(whole) ? [whole] : [];
  });
}

function isTold(host: HostKind & Partial<HostBrief>): host is BriefKind {
  return host.section !== undefined && host.resolve !== undefined && host.doubts !== undefined;
}
