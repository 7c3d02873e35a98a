import { type BriefKind, briefKinds, type Joint, type Loads } from '../host/index.js';
import type { ProblemList } from '../input/index.js';
import type { BriefData } from './schema.js';

/** The cell of an endless row that a brief asks for; the joint as it is where it asks for none, or for one that cannot be. */
export function resolveRow(
  channels: BriefData['channels'],
  { kind, joint, loads }: { readonly kind: BriefKind; readonly joint: Joint; readonly loads: Loads },
  problems: ProblemList,
): Joint {
  const { number, pitch } = channels;
  if (number !== 'row') return joint;
  const { row, name } = kind;
  if (row === undefined) {
    const others = briefKinds().filter((other) => other.row !== undefined);
    problems.add(
      ['channels', 'number'],
      `1 or 2: ${name} does not repeat itself along x`,
      `ask for 1 or 2 channels, or take ${others.map((other) => `host.kind: ${other.kind}`).join(' or ')}`,
    );
    return joint;
  }
  for (const [load, { why, remedy }] of Object.entries(row.without))
    if (Object.hasOwn(loads, load))
      problems.add(['loads', load], `no ${load} on an endless row: ${why}`, remedy, `the load ${load}`);
  if (pitch === undefined) {
    problems.add(
      ['channels', 'pitch'],
      'the distance of neighbours in the row, from middle to middle, mm',
      "add it, for example pitch: 5; to compare several, sweep it: 'lumenfront sweep FILE --vary channels.pitch=4,6,8'",
    );
    return joint;
  }
  return row.cell(joint, pitch, problems);
}
