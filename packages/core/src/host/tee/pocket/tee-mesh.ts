import { InputError } from '../../../errors.js';
import { layupThickness, sectionStiffness } from '../../../material/index.js';
import {
  type Block,
  graded,
  growing,
  joinParts,
  type PlacedBlock,
  type SectionBody,
  withMiddles,
} from '../../../mesh/quad/index.js';
import type { ControlContour } from '../../laminate/index.js';
import { layerRows } from '../layer-rows.js';
import type { Beside } from './beside.js';
import type { FillerOpening } from './known-channel.js';
import { meshPatch, type Patch, type PatchPart } from './patch.js';
import type { PocketSite, PocketTee, Point } from './site.js';
import {
  columnsFromArc,
  columnsFromBase,
  type FillerColumns,
  type FillerPart,
  fillerBlocks,
  tipColumns,
} from './whole-filler.js';

/** A run of a laminate between two of its breaks: skin by where it lies, overlaminate by side. */
export type Run = `skin ${number}` | `${'left' | 'right'} ${'web' | 'bend' | 'foot'} ${number}`;
export type PocketTeePart = PatchPart | FillerPart | Run;

/** An element: column and row of a part. */
export type Element = readonly [part: PocketTeePart, column: number, row: number];

/** A run of plies that is meshed in rows, on which section points lie. */
export interface LayeredRun {
  readonly part: Run;
  readonly place: 'skin' | 'web' | 'bend' | 'foot';
  /** Layer of each row, as the joint counts, in the order of the rows. */
  readonly layers: readonly number[];
}

/** A whole tee, meshed but for the inside of its control contour; coordinates of the joint. */
export interface PocketTeeMesh {
  readonly body: SectionBody;
  readonly parts: Readonly<Partial<Record<PocketTeePart, PlacedBlock>>>;
  readonly patch: Patch;
  readonly runs: readonly LayeredRun[];
  /** Elements on both sides of the filler's border, column by column; none where triangles touch it. */
  readonly interfaces?: Readonly<
    Record<'base' | 'right' | 'left', readonly (readonly [filler: Element, laminate: Element])[]>
  >;
  /** Edge of a channel of known outline. */
  readonly knownEdge?: KnownEdge;
  /** Nodes of the whole contour, in its order. */
  readonly contourNodes: Int32Array;
  readonly webTop: readonly Edge[];
  readonly leftEnd: readonly Edge[];
  readonly rightEnd: readonly Edge[];
}

/** Quadratic: end, middle, end. */
type Edge = readonly [number, number, number];

/** Round a channel that stands in one of the body's materials. */
export interface KnownEdge {
  /** End, middle, end, …, counter-clockwise. */
  readonly nodes: Int32Array;
  readonly material: typeof filler | typeof resin;
}

/** Among the body's materials; overlaminate layers follow, then skin layers. */
export const filler = 0;
export const resin = 1;
const firstLayer = 2;

/** A run of columns: places along it with middles, or those of the patch. */
interface Piece {
  readonly along: readonly number[];
  readonly isPatch: boolean;
}

/** How much finer than the pocket's the rest is meshed: places are judged there, as in a tee without pocket. */
const besidePatch = 1.5;

/** In bend radii: columns in the filler, and elements across half a cusp. */
const cuspStep = 0.05;
const cuspRows = 2;

export function meshPocketTee(
  joint: PocketTee,
  site: PocketSite,
  contour: ControlContour,
  refinement: number,
  beside?: Beside,
): PocketTeeMesh {
  const { fillerChannel } = joint;
  if (fillerChannel === undefined || beside === undefined) return meshParts(joint, site, contour, { refinement });
  return untilApart('host.filler.channel', (finer) => {
    const opening = beside.fillerOpening(joint, fillerChannel, finer);
    const open = meshParts(joint, site, contour, { refinement, opening });
    const filled = beside.fillAround(open.body.mesh, { inner: opening, material: filler });
    return filled && withFilled(open, filled.mesh, { nodes: filled.inner, material: filler });
  });
}

/** Makes a mesh with sides so many times as short, until none come too close to each other. Throws InputError, of the channel at `path`, where they always do. */
export function untilApart(path: string, mesh: (finer: number) => PocketTeeMesh | undefined): PocketTeeMesh {
  for (let finer = 1; finer < 8; finer *= 1.4) {
    const made = mesh(finer);
    if (made !== undefined) return made;
  }
  throw new InputError({
    path,
    expected: 'room around it',
    received: 'none',
    remedy: 'make it smaller or move it',
  });
}

/** The same with what fills its openings. */
export const withFilled = (
  open: PocketTeeMesh,
  mesh: PocketTeeMesh['body']['mesh'],
  knownEdge: KnownEdge,
): PocketTeeMesh => ({ ...open, body: { ...open.body, mesh }, knownEdge });

/** `opening`: of the filler only the tips that it leaves. */
export function meshParts(
  joint: PocketTee,
  site: PocketSite,
  contour: ControlContour,
  { refinement, opening }: { readonly refinement: number; readonly opening?: FillerOpening },
): PocketTeeMesh {
  const { bendRadius: R, pocket } = joint;
  const { roll } = site;
  // The filler's side of a bend is longer than the level on which lengths are told.
  const onLevel = roll === undefined ? 1 : 1 - roll.level / roll.radius;
  const patch = meshPatch(site, pocket.resin, contour, {
    refinement,
    ...(opening === undefined ? {} : { longest: onLevel * opening.step }),
  });
  const finer = besidePatch * refinement;
  const columns = columnsOf(joint, site, patch, { refinement: finer, fillerStep: opening?.step });
  const { runs, blocks } = plyRuns(joint, site, patch, { columns, finer });
  blocks.push(
    ...fillerBlocks(R, columns.filler, {
      rows: Math.round(cuspRows * finer),
      material: filler,
      tips: opening && tipColumns(R, columns.filler, opening.tips),
    }),
  );
  const joined = joinParts(blocks, 1e-9 * R);
  const { parts, nodeOf, mesh } = joined;
  const side = (part: PocketTeePart, column: number, a: number) =>
    Array.from(
      { length: parts[part]!.rows },
      (_, row): Edge => [
        nodeOf(part, column, row, a, 0),
        nodeOf(part, column, row, a, 1),
        nodeOf(part, column, row, a, 2),
      ],
    );
  const lastSkin = `skin ${columns.skin.length - 1}` as const;
  const materials = [
    sectionStiffness({ angle: 90, ply: joint.filler }),
    sectionStiffness({ angle: 90, ply: pocket.resin }),
    ...joint.overlaminate.map(sectionStiffness),
    ...joint.skin.map(sectionStiffness),
  ];
  return {
    body: { mesh, materials },
    parts,
    patch,
    runs,
    ...(opening === undefined ? { interfaces: interfacesOf(joint, columns, parts) } : {}),
    contourNodes: contourNodes(contour, joined),
    webTop: [...side('right web 0', 0, 0), ...side('left web 0', parts['left web 0']!.columns - 1, 2)],
    leftEnd: side('skin 0', 0, 0),
    rightEnd: side(lastSkin, parts[lastSkin]!.columns - 1, 2),
  };
}

/** Blocks of the patch and of all plies beside it, and the runs of these. */
function plyRuns(
  joint: PocketTee,
  site: PocketSite,
  patch: Patch,
  { columns, finer }: { readonly columns: Columns; readonly finer: number },
): { readonly runs: readonly LayeredRun[]; readonly blocks: [PocketTeePart, Block][] } {
  const { bendRadius: R, pocket } = joint;
  const t = layupThickness(joint.overlaminate);
  const skinLayer = (layer: number) => firstLayer + joint.overlaminate.length + layer;
  const overlaminateLayer = (layer: number) => firstLayer + layer;
  const materialOf = (material: number) => {
    if (material === 0) return resin;
    const layer = site.layerOf(material - 1);
    return pocket.in === 'skin' ? skinLayer(layer) : overlaminateLayer(layer);
  };

  // Rows, from the filler outward and, of the skin, bottom up.
  const fine = t / 8 / finer;
  const depth = layupThickness(joint.skin);
  const plain = layerRows(joint.overlaminate, fine, 0.35 / finer);
  const skinRows = layerRows(joint.skin, fine, 0.4 / finer);
  const patched = { positions: patch.levels, layers: patch.plies.map((ply) => site.layerOf(ply)) };
  const skin =
    pocket.in === 'skin'
      ? { positions: patched.positions.map((y) => y - depth), layers: patched.layers }
      : { positions: skinRows.positions.map((y) => -y).reverse(), layers: skinRows.layers.toReversed() };
  const rightRows = pocket.in === 'skin' ? plain : patched;

  const blocks: [PocketTeePart, Block][] = [...patch.blocks(materialOf)];
  const runs: LayeredRun[] = [];
  const addRun = (run: LayeredRun, block: Omit<Block, 'rows' | 'material'>, materialAt: (layer: number) => number) => {
    runs.push(run);
    blocks.push([run.part, { ...block, rows: run.layers.length, material: (row) => materialAt(run.layers[row]!) }]);
  };
  columns.skin.forEach(({ along, isPatch }, k) => {
    if (isPatch) return;
    addRun(
      { part: `skin ${k}`, place: 'skin', layers: skin.layers },
      {
        columns: (along.length - 1) / 2,
        at: (column, row) => [along[column]!, skin.positions[row]!],
        axes: { kind: 'straight', angle: 0 },
      },
      skinLayer,
    );
  });
  for (const side of ['right', 'left'] as const)
    for (const place of ['foot', 'bend', 'web'] as const)
      columns[side][place].forEach(({ along, isPatch }, k) => {
        if (isPatch) return;
        const { positions, layers } = side === 'right' ? rightRows : plain;
        addRun(
          { part: `${side} ${place} ${k}`, place, layers },
          legBlock(R, side, place, along, positions),
          overlaminateLayer,
        );
      });
  return { runs, blocks };
}

/** A leg's block: columns along the right side towards the foot, on the left as its mirror image; rows from the filler outward. */
function legBlock(
  R: number,
  side: 'left' | 'right',
  place: 'foot' | 'bend' | 'web',
  along: readonly number[],
  positions: readonly number[],
): Omit<Block, 'rows' | 'material'> {
  const last = along.length - 1;
  const isRight = side === 'right';
  // `along`: x in the foot, angles from the foot in the bend, heights in the web.
  const pointAt = (s: number, y: number): Point => {
    if (place === 'foot') return [s, y];
    return place === 'web' ? [y, s] : [R - (R - y) * Math.sin(s), R - (R - y) * Math.cos(s)];
  };
  // The foot's columns run towards its end, those of bend and web from there.
  const isForward = (place === 'foot') === isRight;
  return {
    columns: last / 2,
    at: (column, row) => {
      const [x, y] = pointAt(along[isForward ? column : last - column]!, positions[row]!);
      return [isRight ? x : -x, y];
    },
    axes:
      place === 'bend'
        ? { kind: 'arc', x: isRight ? R : -R, y: R }
        : { kind: 'straight', angle: place === 'foot' ? 0 : isRight ? -Math.PI / 2 : Math.PI / 2 },
  };
}

interface Columns {
  readonly filler: FillerColumns;
  readonly skin: readonly Piece[];
  readonly right: Readonly<Record<'foot' | 'bend' | 'web', readonly Piece[]>>;
  readonly left: Readonly<Record<'foot' | 'bend' | 'web', readonly Piece[]>>;
}

/** Sizes of columns at both ends of a run, and at most. */
type Sizes = readonly [first: number, last: number, most: number];

/** Where all columns stand, so that blocks meet node to node. */
function columnsOf(
  joint: PocketTee,
  site: PocketSite,
  patch: Patch,
  { refinement, fillerStep }: { readonly refinement: number; readonly fillerStep: number | undefined },
): Columns {
  const { bendRadius: R, footLength, skinHalfSpan, webHeight, pocket } = joint;
  const t = layupThickness(joint.overlaminate);
  const coarsest = (0.75 * t) / refinement;
  const step = Math.min((cuspStep * R) / refinement, fillerStep ?? Number.POSITIVE_INFINITY);
  const runOut = t / 8 / refinement;
  const [end, foot] = [skinHalfSpan, R + footLength];
  const steps = (from: number, to: number, first: number, last: number, most: number) =>
    withMiddles(graded(to - from, growing(to - from, first, last, 0.3 / refinement, most), 2)).map((s) => from + s);
  /** A run from one break to another, with the patch in it if it lies there. */
  const run = (from: number, to: number, [first, last, most]: Sizes, patched?: readonly number[]) => {
    const piece = (along: readonly number[], isPatch = false): Piece => ({ along, isPatch });
    if (patched === undefined) return [piece(steps(from, to, first, last, most))];
    const [a, b] = [patched[0]!, patched.at(-1)!];
    const edge = patched[2]! - a;
    return [piece(steps(from, a, first, edge, most)), piece(patched, true), piece(steps(b, to, edge, last, most))];
  };
  const moved = (face: readonly number[]) => face.map((s) => pocket.at + s);
  const inSkin = (from: number, to: number) =>
    pocket.in === 'skin' && pocket.at > from && pocket.at < to ? moved(patch.topFace) : undefined;
  const mirrored = (pieces: readonly Piece[]): Piece[] =>
    pieces.map(({ along, isPatch }) => ({ along: along.map((x) => -x).reverse(), isPatch })).reverse();

  const footOf = (patched?: readonly number[]) => run(R, foot, [step, runOut, coarsest], patched);
  const plainFoot = footOf();
  const rightFoot = footOf(pocket.in === 'foot' ? moved(patch.bottomFace) : inSkin(R, foot));
  const leftFoot =
    pocket.in === 'skin'
      ? mirrored(
          footOf(
            inSkin(-foot, -R)
              ?.map((x) => -x)
              .reverse(),
          ),
        )
      : mirrored(plainFoot);
  const hasFree = end - foot > 1e-9 * R;
  const free = (side: 1 | -1): Piece[] => {
    if (!hasFree) return [];
    const patched =
      side === 1
        ? inSkin(foot, end)
        : inSkin(-end, -foot)
            ?.map((x) => -x)
            .reverse();
    const pieces = run(foot, end, [runOut, coarsest, coarsest], patched);
    return side === 1 ? pieces : mirrored(pieces);
  };

  let filler: FillerColumns;
  let middle: Piece[];
  let bend: Piece[];
  const whole = (pieces: readonly Piece[]) => pieces.flatMap(({ along }, i) => (i === 0 ? along : along.slice(1)));
  const single = (along: readonly number[]): Piece[] => [{ along, isPatch: false }];
  if (pocket.in === 'bend') {
    const { radius, level } = site.roll!;
    const angles = patch.bottomFace.map((s) => pocket.at - s / (radius - level)).reverse();
    bend = run(0, Math.PI / 2, [step / R, step / R, step / R], angles);
    filler = columnsFromArc(R, whole(bend), step);
    middle = single(filler.base);
  } else {
    middle = run(-R, R, [step, step, step], inSkin(-R, R));
    filler = columnsFromBase(R, whole(middle), step);
    bend = single(filler.right);
  }
  const plainWeb = single(steps(R, R + webHeight, step, coarsest, coarsest));
  const unpatched = (pieces: readonly Piece[]) => single(whole(pieces));
  return {
    filler,
    skin: [
      ...free(-1),
      ...(pocket.in === 'skin' ? leftFoot : unpatched(leftFoot)),
      ...middle,
      ...(pocket.in === 'skin' ? rightFoot : unpatched(rightFoot)),
      ...free(1),
    ],
    right: { foot: pocket.in === 'foot' ? rightFoot : unpatched(rightFoot), bend, web: plainWeb },
    left: {
      foot: unpatched(mirrored(leftFoot)),
      bend: single(filler.left),
      web: plainWeb,
    },
  };
}

/** The elements that meet on the filler's border, column by column: along the base from left to right, along the arcs from the foot up. */
function interfacesOf(
  { bendRadius: R }: PocketTee,
  columns: Columns,
  parts: PocketTeeMesh['parts'],
): NonNullable<PocketTeeMesh['interfaces']> {
  const rowOf = (part: PocketTeePart, isTop: boolean) => (isTop ? parts[part]!.rows - 1 : 0);
  const across = (part: PocketTeePart, isTop: boolean, reversed = false): Element[] => {
    const all = Array.from(
      { length: parts[part]?.columns ?? 0 },
      (_, column): Element => [part, column, rowOf(part, isTop)],
    );
    return reversed ? all.reverse() : all;
  };
  /** The patch's elements on a face, in the order along. */
  const patchFace = (name: 'below' | 'above'): Element[] =>
    (['left', 'right'] as const).flatMap((half) => {
      const where = ['channel', 'pocket', 'far'] as const;
      return (half === 'right' ? where : where.toReversed()).flatMap((one) =>
        across(`${half} ${name}-${one}`, name === 'above'),
      );
    });
  const skin = columns.skin.flatMap(({ along, isPatch }, k): Element[] => {
    const within = along[0]! > -R * (1 + 1e-9) && along.at(-1)! < R * (1 + 1e-9);
    if (!within) return [];
    return isPatch ? patchFace('above') : across(`skin ${k}`, true);
  });
  const base: Element[] = (['cusp-left', 'square-left', 'square-right', 'cusp-right'] as const).flatMap((part) =>
    across(part, false),
  );
  const arcOf = (side: 'left' | 'right') => {
    // Blocks of the right run from the web to the foot, those of the left from the foot to the web.
    const bend = columns[side].bend.flatMap(({ isPatch }, k): Element[] =>
      isPatch ? patchFace('below').reverse() : across(`${side} bend ${k}`, false, side === 'right'),
    );
    const filler = [...across(`cusp-${side}`, true, side === 'right'), ...across(`cusp-top-${side}`, side === 'left')];
    return pair(filler, bend);
  };
  return {
    base: pair(base, skin),
    right: arcOf('right'),
    left: arcOf('left'),
  };
  function pair(inner: readonly Element[], outer: readonly Element[]) {
    if (inner.length !== outer.length) throw new Error('columns differ');
    return inner.map((one, i) => [one, outer[i]!] as const);
  }
}

function contourNodes(
  contour: ControlContour,
  { parts, nodeOf }: ReturnType<typeof joinParts<PocketTeePart>>,
): Int32Array {
  const last = contour.x.length - 1;
  const half = (side: 'left' | 'right') => {
    const nodes = new Int32Array(last + 1);
    let at = 0;
    for (const ring of ['ring-below', 'ring-end', 'ring-above'] as const) {
      const part = `${side} ${ring}` as const;
      const { columns, rows } = parts[part]!;
      for (let k = 0; k < columns; k++, at += 2)
        for (let a = 0; a < 3; a++)
          nodes[at + a] =
            side === 'right' ? nodeOf(part, k, rows - 1, a, 2) : nodeOf(part, columns - 1 - k, rows - 1, 2 - a, 2);
    }
    return nodes;
  };
  const left = half('left');
  return Int32Array.from([...half('right'), ...left.subarray(1, last).toReversed()]);
}
