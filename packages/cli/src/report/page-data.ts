import type { FieldCells, HostShape, MeshedField, ShapeBox, ShapeFrame, ShapePath } from '@lumenfront/core';
import { frontAxisTitle, frontFigures, frontPlace, layerShades, stressRamp } from '../picture/index.js';
import { shapePathData } from '../shape-path.js';
import {
  numberOf,
  type PageBox,
  type PageChannel,
  type PageData,
  type PageField,
  type ReportChannel,
  type ReportRequest,
} from './data.js';
import { drawingFrames } from './drawing-frames.js';
import { fieldSteps } from './field-bytes.js';
import { signsOf } from './signs.js';

/** What the page's script reads of a request. */
export function pageData(request: ReportRequest): PageData {
  const {
    title,
    designs,
    units = {},
    reference,
    families = {},
    axes,
    allow,
    picked = 0,
    shape,
    without,
    kind = 'front',
  } = request;
  const channels = [...designs, ...(reference === undefined ? [] : [reference])];
  const scale = { ...scaleOf(channels, allow), ...(allow === undefined ? {} : { allow }) };
  const line = request.choices?.lines.find(({ shown }) => shown);
  const ofChoice = line === undefined ? '' : `; ${line.name}`;
  const channel = (one: ReportChannel, name: string): PageChannel => {
    const { field, shape: own, ...rest } = one;
    return {
      ...rest,
      ...(own === undefined ? {} : { section: pathsOf(own) }),
      name,
      place: frontPlace(one),
      caption: `${name}: ${one.family}, ${frontFigures(one, axes)}${ofChoice}`,
      ...(field === undefined ? {} : { field: stepsOf(field, scale) }),
    };
  };
  const field = without ?? channels.find((one) => one.field !== undefined)?.field;
  const frames = drawingFrames(request);
  return {
    title,
    designs: designs.map((design, i) => channel(design, `design ${numberOf(design, i)}`)),
    ...(reference === undefined ? {} : { reference: channel(reference, 'reference') }),
    units,
    others: Object.entries(families).flatMap(([family, points]) =>
      points.map((point) => ({ family, place: frontPlace(point) })),
    ),
    lines: request.choices?.lines ?? [],
    axes:
      axes === undefined
        ? { x: 'channel area, mm²', y: 'peak edge stress, MPa' }
        : { x: frontAxisTitle(axes.x), y: frontAxisTitle(axes.y) },
    front: kind === 'front',
    ...(allow === undefined || axes !== undefined ? {} : { limit: allow }),
    picked,
    cases: Object.keys(designs[0]?.cases ?? {}),
    ...(shape === undefined ? {} : { section: sectionOf(shape) }),
    scale,
    ...(field === undefined || shape === undefined
      ? {}
      : {
          fields: {
            box: boxOf(field.box),
            columns: field.columns,
            rows: field.rows,
            ...(without === undefined ? {} : { without: stepsOf(without, scale) }),
          },
        }),
    signs: signsOf([...designs.map(({ family }) => family), ...Object.keys(families)]),
    ramp: stressRamp(32),
    ...(frames === undefined ? {} : { frames }),
  };
}

/** One range for all pictures, so that equal colours are equal stresses: that of all edges in all cases. */
function scaleOf(channels: readonly ReportChannel[], allow: number | undefined): { low: number; high: number } {
  let [low, high] = [0, allow ?? 0];
  for (const { edge, others = [] } of channels)
    for (const hoop of [edge?.hoop ?? {}, ...others.map((other) => other.hoop)].flatMap(Object.values))
      for (const stress of hoop) [low, high] = [Math.min(low, stress), Math.max(high, stress)];
  return { low, high: high > low ? high : low + 1 };
}

function stepsOf(
  { cases: largest, least, shear, columns }: MeshedField,
  scale: { low: number; high: number },
): PageField {
  const of = (cases: FieldCells) =>
    Object.fromEntries(Object.entries(cases).map(([name, cells]) => [name, fieldSteps(cells, columns, scale)]));
  return { largest: of(largest), least: of(least), shear: of(shear) };
}

function pathsOf({ room, layers, openings }: HostShape): NonNullable<PageChannel['section']> {
  const shades = layerShades(layers);
  return {
    room: pathOf(room),
    layers: layers.map(({ path }, i) => ({ path: pathOf(path), shade: shades[i]! })),
    ...(openings === undefined ? {} : { openings: openings.map(pathOf) }),
  };
}

function sectionOf(shape: HostShape): NonNullable<PageData['section']> {
  return {
    name: shape.roomName,
    ...pathsOf(shape),
    whole: boxOf(shape.frame?.whole ?? shape.whole),
    ...(shape.frame === undefined ? {} : { turn: turnOf(shape.frame) }),
    closeUp: boxOf(shape.closeUp),
  };
}

/** For coordinates with y down. */
function turnOf({ at: [x, y], turn }: ShapeFrame): string {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return `matrix(${[c, -s, s, c, x, -y].map((value) => Number(value.toPrecision(12))).join(' ')})`;
}

const boxOf = ({ xMin, xMax, yMin, yMax }: ShapeBox): PageBox => ({
  left: xMin,
  top: -yMax,
  width: xMax - xMin,
  height: yMax - yMin,
});

const pathOf = (path: ShapePath) =>
  shapePathData(
    path,
    ([x, y]) => `${short(x)} ${short(-y)}`,
    (mm) => short(mm),
  );

const short = (mm: number) => Number(mm.toFixed(4));
