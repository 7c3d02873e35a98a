import {
  type Curve,
  createCurveNodes,
  followOutline,
  hostOf,
  InputError,
  meshedSection,
  type ResolvedBrief,
  sideBySide,
} from '@lumenfront/core';
import { type Command, Option } from 'commander';
import {
  DEFAULT_CHORD_ERROR,
  type Drawing,
  type DrawingView,
  type DxfCurve,
  extentWords,
  prepareDrawing,
  toCsv,
  toDxf,
  toMsh,
  toSvg,
  toVtu,
} from '../draw/index.js';
import { writeTextFile } from '../files/index.js';
import { createOutput, type Streams } from '../output.js';
import { readChannelFile } from './channel-file.js';
import { addChannelOptions, type ChannelOptions, forceOfChannel } from './common-options.js';
import { givenOutline } from './given-outline.js';
import { loadBrief } from './load-brief.js';
import { numberOption } from './option-values.js';

const drawn = ['dxf', 'svg', 'csv'] as const;
/** The whole section meshed with the channel in it, and solved. */
const meshed = ['vtu', 'msh'] as const;
const formats = [...drawn, ...meshed] as const;
type Format = (typeof formats)[number];

/** A search ends on its limits, up to the digits of a channel file. */
const ROUNDING = 0.999;

interface DrawOptions extends ChannelOptions {
  readonly format?: Format;
  readonly curve: DxfCurve;
  readonly view: DrawingView;
  readonly chordError: number;
}

export function define(command: Command, streams: Streams): void {
  command.argument('[brief]', 'brief of the joint (without it: the starter brief)');
  addChannelOptions(command);
  command
    .addOption(new Option('--format <name>', "instead of the ending of --out's name").choices(formats))
    .addOption(
      new Option('--curve <kind>', 'how a DXF holds the outline').choices(['polyline', 'spline']).default('polyline'),
    )
    .addOption(
      new Option(
        '--view <kind>',
        'the channel in its joint, or what the die of a filler pultruded with its channel needs: the filler with the channel as one closed region',
      )
        .choices(['joint', 'die'])
        .default('joint'),
    )
    .option(
      '--chord-error <mm>',
      'largest distance between outline and polyline, in DXF and CSV',
      numberOption('--chord-error', { unit: 'mm', above: 0 }),
      DEFAULT_CHORD_ERROR,
    )
    .option(
      '--out <file>',
      'write to a file (.dxf, .svg or .csv; .vtu or .msh: the section, meshed and solved) instead of standard output',
    )
    .option('--force', forceOfChannel)
    .action(async (file: string | undefined, options: DrawOptions) => {
      const output = createOutput(options, streams);
      const format = options.format ?? formatOf(options.out);
      const { brief, outline: given } = await readChannelFile(await loadBrief(file), options, output);
      const { curve, sample, measure } = givenOutline(given, brief, options.channel);
      const { shape } = hostOf(followOutline(brief, curve).joint);
      const drawing = prepareDrawing({
        outline: sample,
        chordError: options.chordError,
        channels: sideBySide(brief.channel),
        ...(shape === undefined ? {} : { shape }),
      });
      const { wall, edgeRadius } = brief.channel;
      if (measure.wall < ROUNDING * wall || measure.edgeRadius < ROUNDING * edgeRadius)
        output.note(
          `note: wall ${measure.wall.toFixed(3)} mm and edge radius ${measure.edgeRadius.toFixed(3)} mm; the brief asks for ${wall} and ${edgeRadius} mm`,
        );
      refuseDie(options, format, drawing);
      const text = isMeshed(format)
        ? meshText(followOutline(brief, curve), curve, format)
        : render(drawing, format, { curve: options.curve, view: options.view, title: brief.title });
      const facts = {
        format,
        area: drawing.area,
        perimeter: drawing.perimeter,
        points: drawing.vertices.length / 2,
        chordError: drawing.chordError,
      };
      if (options.out === undefined) {
        output.result({ ...facts, text }, () => text);
        return;
      }
      writeTextFile(options.out, text, { force: options.force === true });
      output.result({ ...facts, file: options.out }, () => describe(drawing, options.out!));
    });
}

const isMeshed = (format: Format): format is (typeof meshed)[number] => meshed.some((name) => name === format);

/** Nodes of an outline from which the mesh is made. */
const meshNodes = 256;

function meshText({ joint, loads, cases, channel }: ResolvedBrief, outline: Curve, format: 'vtu' | 'msh'): string {
  const nodes = createCurveNodes(meshNodes);
  outline.place(nodes);
  const section = meshedSection(joint, loads, cases, nodes, { channels: sideBySide(channel) });
  return format === 'vtu' ? toVtu(section) : toMsh(section);
}

function formatOf(out: string | undefined): Format {
  const ending = /\.([a-z]+)$/i.exec(out ?? '')?.[1]?.toLowerCase();
  const format = formats.find((name) => name === ending);
  if (format !== undefined) return format;
  throw new InputError({
    path: out === undefined ? '--format' : '--out',
    expected: `a format: ${formats.join(', ')}`,
    received: out === undefined ? 'neither --format nor --out' : JSON.stringify(out),
    remedy: 'give --format, or --out with such an ending',
  });
}

/** A die is a filler with its channel: it needs a filler, and points of the channel alone are none. */
function refuseDie({ view }: DrawOptions, format: Format, { shape }: Drawing): void {
  if (view !== 'die') return;
  if (format === 'csv')
    throw new InputError({
      path: '--view',
      expected: 'joint, in a CSV file, which holds the points of the channel alone',
      received: 'die',
      remedy: 'draw the die as DXF or SVG',
    });
  if (shape === undefined)
    throw new InputError({
      path: '--view',
      expected: 'joint, of a host without a filler',
      received: 'die',
      remedy: 'give the brief of a joint with a filler',
    });
}

function render(drawing: Drawing, format: Format, words: NonNullable<Parameters<typeof toDxf>[1]>): string {
  if (format === 'dxf') return toDxf(drawing, words);
  return format === 'svg' ? toSvg(drawing, words) : toCsv(drawing);
}

function describe(drawing: Drawing, out: string): string {
  const { area, perimeter, vertices, chordError } = drawing;
  return `wrote ${out}: ${extentWords(drawing).replace(/^channel /, '')} ${area.toFixed(4)} mm², perimeter ${perimeter.toFixed(4)} mm, ${vertices.length / 2} points, chord error ${chordError.toExponential(1)} mm`;
}
