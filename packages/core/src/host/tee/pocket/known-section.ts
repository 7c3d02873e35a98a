import type { z } from 'zod/mini';
import { InputError } from '../../../errors.js';
import {
  type BriefPath,
  expectation,
  list,
  type ProblemList,
  quantity,
  section,
  type Zod,
} from '../../../input/index.js';
import {
  type Border,
  type Curve,
  type CurveNodes,
  channelIn,
  createCurveNodes,
  createOutlineMeasure,
  curveNodesNeeded,
  measureOutline,
  type OutlineData,
  type OutlineRoom,
  outlineOf,
} from '../../../outline/index.js';
import type { MaterialBook } from '../../contract.js';
import { teeFillerBorder } from '../border.js';
import { wholeFiller } from '../inset.js';
import type { KnownOutline, TeeJoint } from '../tee.js';
import { about } from './known-channel.js';

/** A section of a brief that gives the outline of a channel: an ellipse, points, or a file of either. */
export function knownSection(z: Zod, sentence: string) {
  const extent = (what: string) => z.optional(quantity(z, { unit: 'mm', above: 0, atMost: 10_000, sentence: what }));
  const coordinate = (what: string) => quantity(z, { unit: 'mm', atLeast: -10_000, atMost: 10_000, sentence: what });
  const place = (what: string) =>
    z.meta(
      z.tuple([coordinate('Across.'), coordinate('Up.')], {
        error: () => expectation('a position [x, y] in mm', 'write, for example, [0, 1.25]'),
      }),
      { description: `${what} Unit: mm.`, unit: 'mm' },
    );
  return section(
    z,
    {
      at: z.optional(place('Of an ellipse: its middle [x, y].')),
      width: extent('Of an ellipse: its width before any turn.'),
      height: extent('Of an ellipse: its height before any turn.'),
      turn: z.optional(
        quantity(z, {
          unit: 'deg',
          atLeast: -90,
          atMost: 90,
          sentence: 'Of an ellipse: its turn about its middle, counter-clockwise. Default: 0.',
        }),
      ),
      points: z.optional(
        list(z, place('A point of the outline [x, y].'), {
          of: 'points round the outline',
          atLeast: 32,
          atMost: 10_000,
          sentence: 'Instead: points of a smooth outline in order.',
        }),
      ),
      file: z.optional(
        z.meta(z.string({ error: () => expectation('the name of a file', 'write, for example, channel.json') }), {
          description:
            'Instead: a JSON file beside the brief, as commands take with --channel: a channel, a pick or a front.',
        }),
      ),
      design: z.optional(
        quantity(z, {
          unit: '1',
          integer: true,
          atLeast: 1,
          atMost: 100_000,
          sentence: 'Which design of a front, from 1.',
        }),
      ),
    },
    sentence,
  );
}

export type KnownSection = z.output<ReturnType<typeof knownSection>>;

/** The outline as plain data; undefined, with a problem added, where none is given. */
function resolveKnown(
  given: KnownSection,
  path: BriefPath,
  book: MaterialBook,
  problems: ProblemList,
): OutlineData | undefined {
  const { at, width, height, turn = 0, points, file, design } = given;
  const ellipse = [at, width, height].filter((one) => one !== undefined).length;
  const ways = [ellipse > 0 || given.turn !== undefined, points !== undefined, file !== undefined].filter(
    Boolean,
  ).length;
  if (ways !== 1 || (ellipse > 0 && ellipse < 3) || (file === undefined && design !== undefined)) {
    problems.add(
      path,
      'at, width and height of an ellipse, or points, or file (of a front with design)',
      ways > 1 ? 'keep one of them' : 'give all that one of them needs',
    );
    return undefined;
  }
  if (points !== undefined) return { points };
  if (file === undefined)
    return { family: 'ellipse', parameters: { x: at![0], y: at![1], width: width!, height: height!, turn } };
  return outlineIn(file, design, [...path, 'file'], book, problems);
}

function outlineIn(
  file: string,
  design: number | undefined,
  path: BriefPath,
  book: MaterialBook,
  problems: ProblemList,
): OutlineData | undefined {
  const read = book.text(file, path);
  if (read === undefined) return undefined;
  return ifPossible(() => channelIn(parsed(read.text), { file, design, named: 'design' }).outline, path, problems);
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    // What it is instead the reader says.
    return undefined;
  }
}

/** What `make` returns of a given outline; undefined, with problems added at its path, where it cannot be. */
export function ifPossible<T>(make: () => T, path: BriefPath, problems: ProblemList): T | undefined {
  try {
    return make();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    for (const { path: within, expected, received, remedy } of error.problems)
      problems.add(path, `${within}: ${expected}`, remedy, received);
    return undefined;
  }
}

/** Least wall of a channel of known outline in the filler, in bend radii: elements go round it. */
const leastWall = 0.02;

/** Least sides round a channel of known outline, and the longest, in its distances from the border. */
const leastSides = 96;
const sideOfWall = 0.5;

/** A channel of known outline in the filler; adds problems where there can be none. */
export function resolveFillerChannel(
  given: KnownSection,
  joint: TeeJoint,
  book: MaterialBook,
  problems: ProblemList,
): KnownOutline | undefined {
  const { bendRadius: R } = joint;
  return resolveIn(given, {
    path: ['host', 'filler', 'channel'],
    room: wholeFiller(joint, false),
    border: teeFillerBorder(R),
    least: leastWall * R,
    words: `the border of the filler (${leastWall} bend radii)`,
    book,
    problems,
  });
}

/** Where a channel of known outline stands. */
export interface KnownRoom {
  readonly path: BriefPath;
  readonly room: OutlineRoom;
  readonly border: Border;
  /** Least distance from that, mm, and what it is, for messages. */
  readonly least: number;
  readonly words: string;
  readonly book: MaterialBook;
  readonly problems: ProblemList;
}

/** Adds problems where there can be none. */
export function resolveIn(given: KnownSection, of: KnownRoom): KnownOutline | undefined {
  const { path, room, border, least, words, book, problems } = of;
  const outline = resolveKnown(given, path, book, problems);
  const curve = outline && ifPossible(() => outlineOf(outline, room), path, problems);
  const nodes =
    curve && ifPossible(() => nodesOn(curve, 2 * Math.max(leastSides, curveNodesNeeded(curve))), path, problems);
  if (nodes === undefined) return undefined;
  const measure = createOutlineMeasure();
  measureOutline(nodes, border, measure);
  const { simple, wall } = measure;
  if (!simple)
    problems.add(path, 'an outline that does not cross itself', 'give its points in order around it', 'one that does');
  else if (!(wall >= least))
    problems.add(
      path,
      `at least ${about(least)} mm between the channel and ${words}`,
      'move it, or make it smaller',
      wall > 0 ? `${about(wall)} mm` : 'an outline that touches or crosses the border',
    );
  else {
    const { x, y } = nodesOn(curve!, Math.max(nodes.count, 2 * Math.ceil(measure.perimeter / (sideOfWall * wall))));
    return Array.from(x, (px, j) => [px, y[j]!]);
  }
  return undefined;
}

function nodesOn(curve: Curve, count: number): CurveNodes {
  const nodes = createCurveNodes(count);
  curve.place(nodes);
  return nodes;
}
