import {
  type ChannelObjective,
  createFamily,
  curvatureFamily,
  curvatureUnit,
  cuspDistanceOf,
  type DesignDocument,
  type EvaluatedChannel,
  hostOf,
  InputError,
  isCurvature,
  type OutlineRoom,
  outlineOf,
  placeLabel,
  type ResolvedBrief,
} from '@lumenfront/core';
import type { JudgeChannel, TradedFigures } from '@lumenfront/optimizer';
import type { FrontAxes } from '../picture/index.js';
import type { ReportDesign, ReportRequest } from '../report/index.js';
import { costFigure, sizeFigure } from '../show/index.js';
import { givenOutline, wholeRoom } from './given-outline.js';
import { meshTables, strengthTables } from './report-tables.js';
import type { ResultFile } from './result-file.js';
import { startText } from './start-text.js';
import { strengthLimits } from './strength-text.js';
import { briefRows } from './summarise-brief.js';

/** Points of a drawn outline at most: enough for a smooth edge, few enough that a front's page stays light. */
const outlinePoints = 240;
/** A peak that differs by more was not found for this brief. */
const sameShare = 0.01;

/** The design shown first: the largest within the allowed peak, or else the one of the least peak. */
export function preferredDesign(designs: readonly DesignDocument[], allow: number): number {
  const best = designs.reduce<DesignDocument | undefined>((a, b) => {
    if (a === undefined) return b;
    const [aHolds, bHolds] = [a.peak <= allow, b.peak <= allow];
    if (aHolds !== bHolds) return aHolds ? a : b;
    return (aHolds ? b.area > a.area : b.peak < a.peak) ? b : a;
  }, undefined);
  return best === undefined ? 0 : designs.indexOf(best);
}

/** A result file, and the brief that it was searched for. */
export interface SearchedBrief {
  readonly result: ResultFile;
  readonly path: string;
  readonly brief: ResolvedBrief;
  readonly briefText: string;
}

/**
 * What the report and the pictures show of a result. Every design is judged again, for the stress along its edge and for the strength.
 *
 * @param design which design is shown first, from 1
 * @throws InputError if the result does not belong to the brief
 */
export function reportRequest(
  { result, path, brief, briefText }: SearchedBrief,
  judge: JudgeChannel,
  design?: number,
): ReportRequest {
  if (design !== undefined && design > result.designs.length)
    throw new InputError({
      path: '--design',
      expected: `1 to ${result.designs.length}, a design of ${path}`,
      received: String(design),
      remedy: 'name one of its designs, or leave --design out',
    });
  const { search, reference, versions } = result;
  const judged = result.designs.map((one, i) => {
    givenOutline(one, brief, path);
    return judge(outlineOf(one, wholeRoom(brief)), `design ${i + 1}`);
  });
  const picked = design === undefined ? preferredDesign(result.designs, brief.allow) : design - 1;
  const change = Math.max(0, ...judged.map(({ design: { peak } }, i) => Math.abs(peak / result.designs[i]!.peak - 1)));
  const failure = firstFailureOf(judged[picked]);
  const axes = axesOf(search.objective);
  const { shape } = hostOf(brief.joint);
  return {
    title: brief.title,
    brief: briefRows(brief),
    briefText,
    designs: result.designs.map((one, i) => ({
      ...reportDesign(one, judged[i]!, brief),
      ...axes?.place(withStrength(judged[i]!)),
    })),
    ...(axes === undefined ? {} : { axes: axes.titles }),
    allow: brief.allow,
    picked,
    ...(failure === undefined ? {} : { firstFailure: failure }),
    validation: [
      describeMeshed(result.designs),
      `Judged again for this report, the peaks change by at most ${(100 * change).toFixed(2)} %.`,
    ],
    cautions: [
      ...(change <= sameShare
        ? []
        : ['The result was not found for this brief: peaks differ. Give the brief that was searched.']),
      ...brief.cautions,
    ],
    search: [
      ['seed', String(search.seed)],
      ['evaluations', String(search.evaluations)],
      ...search.runs.map(({ stop }, i): [string, string] => [`run ${i + 1} stopped`, stop]),
    ],
    versions,
    reference: { ...reference, ...axes?.place(reference) },
    ...(shape === undefined ? {} : { shape }),
  };
}

/** The axes of a front that does not trade area against the peak, and where a design stands on them. */
function axesOf(objective: ChannelObjective | undefined) {
  if (objective === undefined || (objective.size === 'area' && objective.cost === 'peak')) return undefined;
  const [x, y] = [sizeFigure(objective), costFigure(objective)];
  const titles: FrontAxes = { x: { title: x.name, unit: x.unit }, y: { title: y.name, unit: y.unit } };
  return { titles, place: (point: TradedFigures) => ({ place: [x.of(point), y.of(point)] as const }) };
}

function withStrength({ design, strengthSummary }: EvaluatedChannel): TradedFigures {
  const strength = strengthSummary();
  return { ...design, ...(strength === undefined ? {} : { strength }) };
}

function describeMeshed(designs: readonly DesignDocument[]): string {
  const differences = designs.flatMap(({ difference }) => (difference === undefined ? [] : [difference.cases]));
  const advice = 'Check the design that you choose against the independent mesh: lumenfront check.';
  if (differences.length === 0) return `Stresses are those of the fast model. ${advice}`;
  const most = Math.max(...differences.flatMap((cases) => Object.values(cases).map(Math.abs)));
  return (
    `Stresses are those of the fast model. ${differences.length} of ${designs.length} designs were solved by the independent mesh as well: ` +
    `peaks of their cases differ by at most ${(100 * most).toFixed(2)} %. ${advice}`
  );
}

function firstFailureOf(judged: EvaluatedChannel | undefined): ReportRequest['firstFailure'] {
  const strength = judged?.strength();
  if (strength === undefined || strength.place === 'none') return undefined;
  const { place, worstCase, loadFactor, at } = strength;
  return { place: placeLabel(place), caseName: worstCase, loadFactor, at };
}

function reportDesign(design: DesignDocument, judged: EvaluatedChannel, brief: ResolvedBrief): ReportDesign {
  const { worstCase } = judged.design;
  const { count, x, y } = judged.edge.nodes;
  const stride = Math.ceil(count / outlinePoints);
  const shown = Array.from({ length: Math.ceil(count / stride) }, (_, k) => k * stride);
  const hoop = judged.caseHoop[worstCase]!;
  const strength = judged.strength();
  const { edge } = brief.strength;
  const limits = strengthLimits({ edge, cuspDistance: cuspDistanceOf(brief.joint, brief.strength.cuspDistance) });
  const units = unitsOf(design, wholeRoom(brief));
  return {
    family: design.family,
    area: design.area,
    conductance: judged.design.conductance,
    peak: design.peak,
    cases: design.cases,
    minEdgeRadius: design.minEdgeRadius,
    parameters: Object.fromEntries(
      Object.entries(design.parameters).map(([name, value]) => [name, { value, unit: units.get(name) ?? '1' }]),
    ),
    outline: shown.map((j) => [x[j]!, y[j]!] as const),
    edge: { caseName: worstCase, hoop: shown.map((j) => hoop[j]!) },
    ...(strength === undefined ? {} : { strength: { retained: strength.retained, startsAt: startText(strength) } }),
    tables: [...(strength === undefined ? [] : strengthTables(strength, limits)), ...meshTables(design)],
    ...(Number.isFinite(design.wall) ? { wall: design.wall } : {}),
  };
}

function unitsOf({ family, parameters }: DesignDocument, room: OutlineRoom): Map<string, string> {
  if (family === curvatureFamily && isCurvature(parameters))
    return new Map(Object.keys(parameters).map((name) => [name, curvatureUnit(name)]));
  const { parameters: known } = createFamily(family, { ...room, mirror: !Object.hasOwn(parameters, 'x') });
  return new Map(known.map(({ name, unit }) => [name, unit]));
}
