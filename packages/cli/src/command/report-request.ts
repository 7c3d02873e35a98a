import { createFamily, InputError, type OutlineRoom, type ResolvedBrief } from '@lumenfront/core';
import type { ReportDesign, ReportRequest } from '../report/index.js';
import { givenOutline, wholeRoom } from './given-outline.js';
import type { ResultDesign, ResultFile } from './result-file.js';
import { briefRows } from './summarise-brief.js';

const OUTLINE_POINTS = 240;

/** The design shown first: the largest within the allowed peak, or else the one of the least peak. */
export function preferredDesign(designs: readonly ResultDesign[], allow: number): number {
  const best = designs.reduce<ResultDesign | undefined>((a, b) => {
    if (a === undefined) return b;
    const [aHolds, bHolds] = [a.peak <= allow, b.peak <= allow];
    if (aHolds !== bHolds) return aHolds ? a : b;
    return (aHolds ? b.area > a.area : b.peak < a.peak) ? b : a;
  }, undefined);
  return best === undefined ? 0 : designs.indexOf(best);
}

/**
 * What the report and the pictures show of a result.
 *
 * @param design which design is shown first, from 1
 * @throws InputError if the result does not belong to the brief
 */
export function reportRequest(
  result: ResultFile,
  path: string,
  brief: ResolvedBrief,
  briefText: string,
  design: number | undefined,
): ReportRequest {
  if (design !== undefined && design > result.designs.length)
    throw new InputError({
      path: '--design',
      expected: `1 to ${result.designs.length}, a design of ${path}`,
      received: String(design),
      remedy: 'name one of its designs, or leave --design out',
    });
  const { search, reference, versions } = result;
  return {
    title: brief.title,
    brief: briefRows(brief),
    briefText,
    designs: result.designs.map((one) => reportDesign(one, brief, path)),
    allow: brief.allow,
    picked: design === undefined ? preferredDesign(result.designs, brief.allow) : design - 1,
    validation: [
      'Stresses are those of the fast model. Check the design that you choose against the independent mesh: lumenfront check.',
    ],
    cautions: brief.cautions,
    search: [
      ['seed', String(search?.seed ?? 'not stated')],
      ['evaluations', String(search?.evaluations ?? 'not stated')],
      ...(search?.runs ?? []).map((run, i): [string, string] => [`run ${i + 1} stopped`, run.stop ?? 'not stated']),
    ],
    versions: versions ?? {},
    ...(reference === undefined ? {} : { reference }),
    ...(brief.joint.kind === 'tee' ? { joint: brief.joint } : {}),
  };
}

function reportDesign(design: ResultDesign, brief: ResolvedBrief, path: string): ReportDesign {
  const { x, y } = givenOutline(design, brief, path).sample(OUTLINE_POINTS);
  const units = unitsOf(design, wholeRoom(brief));
  return {
    family: design.family,
    area: design.area,
    peak: design.peak,
    cases: design.cases,
    minEdgeRadius: design.minEdgeRadius,
    parameters: Object.fromEntries(
      Object.entries(design.parameters).map(([name, value]) => [name, { value, unit: units.get(name) ?? '1' }]),
    ),
    outline: Array.from({ length: OUTLINE_POINTS }, (_, j) => [x[j]!, y[j]!] as const),
    ...(design.wall === null ? {} : { wall: design.wall }),
  };
}

function unitsOf({ family, parameters }: ResultDesign, room: OutlineRoom): Map<string, string> {
  const { parameters: known } = createFamily(family, { ...room, mirror: !Object.hasOwn(parameters, 'x') });
  return new Map(known.map(({ name, unit }) => [name, unit]));
}
