import {
  type ChannelDesign,
  type ChannelObjective,
  type CrackGrowth,
  type Curve,
  copiesOfAll,
  createFamily,
  curvatureFamily,
  curvatureUnit,
  cuspDistanceOf,
  type DesignDocument,
  type EvaluatedChannel,
  followOutline,
  type HostShape,
  hostOf,
  InputError,
  isCurvature,
  type OutlineRoom,
  outlineOf,
  placesOfOthers,
  type ReferenceChannel,
  type ResolvedBrief,
  type SearchRun,
  type ShapeFrame,
  type SideBySide,
  sideBySide,
  wholeRoom,
} from '@lumenfront/core';
import {
  channelField,
  crackGrowthOf,
  type JudgeChannel,
  meshNodes,
  referenceCurve,
  type TradedFigures,
} from '@lumenfront/optimizer';
import { copyMove, prepareDrawing, roundedPoints } from '../draw/index.js';
import type { FrontAxes } from '../picture/index.js';
import {
  type ReportChannel,
  type ReportCopy,
  type ReportDesign,
  type ReportRequest,
  strengthFigures,
} from '../report/index.js';
import { answerOf, costFigure, preferredDesign, sizeFigure } from '../show/index.js';
import { givenOutline } from './given-outline.js';
import { crackTables, meshTables, repairTables, strengthTables } from './report-tables.js';
import type { ResultFile } from './result-file.js';
import { strengthLimits } from './strength-text.js';
import { briefRows } from './summarise-brief.js';

/** Points of a drawn outline at most: enough for a smooth edge, few enough that a front's page stays light. */
const outlinePoints = 200;
/** Designs of a page: each takes 12 kB, and more could not be told apart in the front. */
const mostShown = 120;
/** A peak that differs by more was not found for this brief. */
const sameShare = 0.01;

/** A result file, and the brief that it was searched for. */
export interface SearchedBrief {
  readonly result: ResultFile;
  readonly path: string;
  readonly brief: ResolvedBrief;
  readonly briefText: string;
}

export interface ReportWish {
  /** Shown first, from 1; the largest within the allowed peak if absent. */
  readonly design?: number;
  /** Whether the mesh solves the stress around it, without channel, around the reference, and around these designs. */
  readonly fields: boolean;
  readonly around?: readonly number[];
}

/**
 * What the report and the pictures show of a result. Every design is judged again, for the stress along its edge and for the strength.
 *
 * @throws InputError if the result does not belong to the brief
 */
export function reportRequest(
  { result, path, brief, briefText }: SearchedBrief,
  judge: JudgeChannel,
  wish: ReportWish,
): ReportRequest {
  const { around = [], fields } = wish;
  const { search, versions, allow } = result;
  const { pickedOfAll, wanted, places } = chosenPlaces({ result, path, brief }, wish);
  const designs = places.map((place) => result.designs[place]!);
  const picked = Math.max(0, places.indexOf(pickedOfAll));
  const outlines = designs.map((one) => {
    givenOutline(one, brief, path);
    return outlineOf(one, wholeRoom(brief));
  });
  const judged = outlines.map((outline, i) => judge(outline, `design ${places[i]! + 1}`));
  const referenceOutline = referenceCurve(referenceOf(result.reference));
  const reference = judge(referenceOutline, 'the reference channel');
  const change = Math.max(0, ...judged.map(({ design: { peak } }, i) => Math.abs(peak / designs[i]!.peak - 1)));
  const axes = axesOf(search.objective, result.reference);
  const follows = hostOf(brief.joint).follows !== undefined;
  const { shape } = hostOf(followOutline(brief, outlines[picked]!).joint);
  const ownShape = (outline: Curve) => {
    const own = follows ? hostOf(followOutline(brief, outline).joint).shape : undefined;
    return own === undefined ? {} : { shape: own };
  };
  const solved = new Map(
    [pickedOfAll, ...around.map((number) => number - 1)].flatMap((place) => {
      const i = places.indexOf(place);
      const outline = outlines[i];
      return fields && outline ? [[i, byMesh(brief, outline, judged[i]!)] as const] : [];
    }),
  );
  const told = [...solved.values()];
  const hasFields = told.some(({ field }) => field !== undefined);
  const referenceField = hasFields ? channelField(brief, referenceOutline) : undefined;
  const without = hasFields ? channelField(brief, undefined) : undefined;
  return {
    title: brief.title,
    answer: answerOf(
      {
        ...result,
        allow: allow ?? brief.allow,
        picked: pickedOfAll,
        ...(search.objective && { objective: search.objective }),
      },
      brief,
    ),
    brief: briefRows(brief),
    briefText,
    kind: result.kind,
    all: result.designs.length,
    wanted: wanted.map((place) => place + 1),
    designs: designs.map((one, i) => ({
      number: places[i]! + 1,
      ...reportChannel(one, judged[i]!, followOutline(brief, outlines[i]!), solved.get(i)?.growth),
      ...ownShape(outlines[i]!),
      ...axes?.place(withStrength(judged[i]!)),
      ...(shape === undefined ? {} : { files: filesOf(one, brief, path, shape) }),
      ...fieldOf(solved.get(i)),
    })),
    units: Object.assign({}, ...[...designs, result.reference].map((one) => unitsOf(one, wholeRoom(brief)))),
    ...(result.kind === 'front' ? { families: familiesBelow(result, axes) } : {}),
    ...(axes === undefined ? {} : { axes: axes.titles }),
    allow: allow ?? brief.allow,
    picked,
    ...(without === undefined ? {} : { without }),
    validation: [
      describeMeshed(result.designs),
      ...describeFiner(judged.map(({ design }) => design)),
      `Judged again for this report, the peaks change by at most ${(100 * change).toFixed(2)} %.`,
    ],
    cautions: [
      ...(change <= sameShare
        ? []
        : ['The result was not found for this brief: peaks differ. Give the brief that was searched.']),
      ...brief.cautions,
      ...new Set(told.flatMap(({ caution }) => caution ?? [])),
      ...result.cautions.filter((text) => !brief.cautions.includes(text)),
    ],
    search: [
      ['seed', String(search.seed)],
      ['outlines evaluated', String(search.evaluations)],
    ],
    runs: runsText(search.runs),
    versions,
    reference: {
      ...reportChannel(result.reference, reference, followOutline(brief, referenceOutline)),
      ...ownShape(referenceOutline),
      ...axes?.place(result.reference),
      ...(referenceField === undefined ? {} : { field: referenceField }),
    },
    ...(shape === undefined ? {} : { shape }),
  };
}

/** What the mesh alone tells of a design. */
function byMesh(brief: ResolvedBrief, outline: Curve, { design }: EvaluatedChannel) {
  return {
    field: channelField(brief, outline),
    ...crackGrowthOf(brief, meshNodes(outline, design.nodes)),
  };
}

const fieldOf = (told: ReturnType<typeof byMesh> | undefined): Pick<ReportChannel, 'field'> =>
  told?.field === undefined ? {} : { field: told.field };

/** Places, in the result, of the design that a page shows first, and of all that it shows. */
function chosenPlaces(
  { result, path, brief }: Omit<SearchedBrief, 'briefText'>,
  { design, around = [] }: ReportWish,
): { readonly pickedOfAll: number; readonly wanted: readonly number[]; readonly places: readonly number[] } {
  const known = (option: string, number: number) => {
    if (number > result.designs.length)
      throw new InputError({
        path: option,
        expected: `1 to ${result.designs.length}, a design of ${path}`,
        received: String(number),
        remedy: `name one of its designs, or leave ${option} out`,
      });
  };
  if (design !== undefined) known('--design', design);
  for (const number of around) known('--around', number);
  const pickedOfAll =
    design !== undefined
      ? design - 1
      : result.kind === 'pick'
        ? 0
        : preferredDesign(result.designs, brief.allow, result.search.objective);
  const meshed = result.designs.flatMap((one, place) => ('meshed' in one ? [place] : []));
  const wanted = [pickedOfAll, ...meshed, ...around.map((number) => number - 1)];
  return { pickedOfAll, wanted, places: placesShown(result.designs.length, wanted) };
}

/** Places of the designs that a page shows: evenly among all, with the `wanted` ones; growing. */
function placesShown(count: number, wanted: readonly number[]): number[] {
  if (count <= mostShown) return Array.from({ length: count }, (_, place) => place);
  const evenly = Array.from({ length: mostShown }, (_, k) => Math.round((k * (count - 1)) / (mostShown - 1)));
  return [...new Set([...evenly, ...wanted])].sort((a, b) => a - b);
}

/** The reference that a result was compared with, as a brief says it. */
function referenceOf({ parameters: { x = 0, y, width, height } }: DesignDocument): ReferenceChannel {
  return { family: 'ellipse', at: [x, y!], width: width!, height: height! };
}

/** How the runs of each family ended, and how often: few words for hundreds of runs. */
function runsText(runs: readonly SearchRun[]): string[] {
  const counts = new Map<string, Map<string, number>>();
  for (const { family, method, stop } of runs) {
    const kind = `${family}, ${method}`;
    const stops = counts.get(kind) ?? new Map<string, number>();
    counts.set(kind, stops.set(stop, (stops.get(stop) ?? 0) + 1));
  }
  return [...counts].map(
    ([kind, stops]) =>
      `${kind}: ${[...stops].map(([stop, count]) => (count === 1 ? stop : `${stop} (${count} times)`)).join(', ')}`,
  );
}

/** What of the families' own fronts is not on the common one. */
function familiesBelow(
  { families, designs }: ResultFile,
  axes: ReturnType<typeof axesOf>,
): NonNullable<ReportRequest['families']> {
  const keyOf = ({ family, parameters }: DesignDocument) => JSON.stringify([family, parameters]);
  const shown = new Set(designs.map(keyOf));
  return Object.fromEntries(
    Object.entries(families).map(([name, members]) => [
      name,
      members
        .filter((one) => !shown.has(keyOf(one)))
        .map((one) => ({ area: one.area, peak: one.peak, ...axes?.place(one) })),
    ]),
  );
}

/** What the page needs to save the drawings that `draw` writes. */
function filesOf(
  design: DesignDocument,
  brief: ResolvedBrief,
  path: string,
  { frame }: HostShape,
): NonNullable<ReportDesign['files']> {
  const drawing = prepareDrawing({
    outline: givenOutline(design, brief, path).sample,
    ...(frame === undefined ? {} : { frame }),
    channels: sideBySide(brief.channel),
  });
  const [area, perimeter, chordError] = [drawing.area, drawing.perimeter, drawing.chordError].map((v) => v.toFixed(6));
  return {
    vertices: roundedPoints(drawing.vertices),
    curves: roundedPoints(drawing.curves),
    ...{ area: area!, perimeter: perimeter!, chordError: chordError! },
  };
}

/** The axes of a front that does not trade area against the peak, and where a design stands on them. */
function axesOf(objective: ChannelObjective | undefined, { row }: DesignDocument) {
  if (objective === undefined || (objective.size === 'area' && objective.cost === 'peak')) return undefined;
  const [x, y] = [sizeFigure(objective, row !== undefined), costFigure(objective)];
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

/** The fast model's own estimate of its error, which every design has. */
function describeFiner(designs: readonly ChannelDesign[]): string[] {
  const finer = designs.flatMap(({ accuracy }) => (accuracy === undefined ? [] : [accuracy]));
  return finer.length === 0
    ? []
    : [
        `Its own estimate of its error, by finer fields, is at most ${(100 * Math.max(...finer)).toFixed(2)} % of the largest hoop stress.`,
      ];
}

function reportChannel(
  design: DesignDocument,
  judged: EvaluatedChannel,
  brief: ResolvedBrief,
  growth?: CrackGrowth,
): ReportChannel {
  const { worstCase } = judged.design;
  const { count, x, y } = judged.edge.nodes;
  const stride = Math.ceil(count / outlinePoints);
  const shown = Array.from({ length: Math.ceil(count / stride) }, (_, k) => k * stride);
  const hoop = (values: Float64Array) => shown.map((j) => Number(values[j]!.toPrecision(4)));
  const strength = judged.strength();
  const { edge } = brief.strength;
  const limits = strengthLimits({ edge, cuspDistance: cuspDistanceOf(brief.joint, brief.strength.cuspDistance) });
  return {
    family: design.family,
    area: design.area,
    conductance: judged.design.conductance,
    peak: design.peak,
    cases: design.cases,
    minEdgeRadius: design.minEdgeRadius,
    ...pitchOf(judged.design),
    parameters: design.parameters,
    outline: shown.map((j) => [Number(x[j]!.toFixed(5)), Number(y[j]!.toFixed(5))] as const),
    ...(brief.channel.group === undefined
      ? {}
      : { others: otherChannels(judged, shown, sideBySide(brief.channel), hostOf(brief.joint).shape?.frame) }),
    edge: {
      worstCase,
      hoop: Object.fromEntries(Object.entries(judged.caseHoop).map(([name, values]) => [name, hoop(values)])),
    },
    ...(strength === undefined ? {} : { strength: strengthFigures(strength) }),
    tables: [
      ...(strength === undefined ? [] : strengthTables(strength, limits)),
      ...repairTables(judged.repair(brief.delivery.agents)),
      ...meshTables(design),
      ...crackTables(growth),
    ],
    ...(Number.isFinite(design.wall) ? { wall: design.wall } : {}),
  };
}

/** Of several channels all but the given one, at some of their nodes: from the middle to the right, each with its mirror image behind it. */
function otherChannels(
  { edge, caseHoop }: EvaluatedChannel,
  shown: readonly number[],
  group: SideBySide,
  frame: ShapeFrame | undefined,
): ReportCopy[] {
  const cases = Object.keys(caseHoop);
  const all = copiesOfAll(group);
  const others = edge.each.flatMap((channel, k) => {
    const { nodes, onAxis, bothSides } = channel;
    const told = (isImage: boolean) => {
      const isSolvedImage = !edge.several && all[k]!.isImage;
      const order = isImage
        ? shown.toReversed()
        : isSolvedImage
          ? shown.toReversed().map((j) => nodes.count - 1 - j)
          : shown;
      const sign = isImage ? -1 : 1;
      // Values of an image follow those of its channel, where they differ.
      const from = isImage && bothSides ? nodes.count : 0;
      return {
        outline: order.map((j) => [Number((sign * nodes.x[j]!).toFixed(5)), Number(nodes.y[j]!.toFixed(5))] as const),
        hoop: Object.fromEntries(
          cases.map((name, c) => [name, order.map((j) => Number(channel.caseHoop[c]![from + j]!.toPrecision(4)))]),
        ),
      };
    };
    return [...(k === 0 ? [] : [told(false)]), ...(onAxis || !edge.several ? [] : [told(true)])];
  });
  return placesOfOthers(group).map((place, k) => ({
    isMirrored: place.isMirrored,
    move: copyMove(place, frame),
    ...others[k]!,
  }));
}

function pitchOf({ pair, group, row }: EvaluatedChannel['design']): Pick<ReportChannel, 'pitch'> {
  const pitch = (pair ?? group ?? row)?.pitch;
  return pitch === undefined ? {} : { pitch };
}

function unitsOf({ family, parameters }: DesignDocument, room: OutlineRoom): Record<string, string> {
  if (family === curvatureFamily && isCurvature(parameters))
    return Object.fromEntries(Object.keys(parameters).map((name) => [name, curvatureUnit(name)]));
  const { parameters: known } = createFamily(family, { ...room, mirror: !Object.hasOwn(parameters, 'x') });
  return Object.fromEntries(known.map(({ name, unit }) => [name, unit]));
}
