import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { briefSizeLimit, hostOf, outlineOf, type ResolvedBrief, starterBrief, wholeRoom } from '@lumenfront/core';
import { prepareEvaluator, referenceDesign } from '@lumenfront/optimizer';
import type { Command } from 'commander';
import { makeFolder, readTextFile, writeTextFile } from '../files/index.js';
import { createOutput, type Streams } from '../output.js';
import { contactSheet, frontPicture, jointPicture } from '../picture/index.js';
import { lightPage, liveData, numberOf, pickedJoint, type ReportRequest } from '../report/index.js';
import { openWorkplace } from '../workplace.js';
import { choiceLines, choicesTable } from './choices-text.js';
import type { CommonOptions } from './common-options.js';
import { loadBrief } from './load-brief.js';
import { numberOption } from './option-values.js';
import { ofOneChoice } from './report-choice.js';
import { reportRequest } from './report-request.js';
import { readResultFile, refuseOtherBrief } from './result-file.js';

interface ReportOptions extends CommonOptions {
  readonly channel: string;
  readonly design?: number;
  readonly around?: readonly number[];
  readonly out: string;
  readonly pictures?: string;
  readonly force?: boolean;
  readonly fast?: boolean;
}

const designNumber = (option: string) => numberOption(option, { unit: '1', atLeast: 1, integer: true });

export function define(command: Command, streams: Streams): void {
  command
    .argument('[brief]', 'brief that was searched (without it: the starter brief)')
    .requiredOption('--channel <file>', 'what front or pick wrote with --json or --out')
    .requiredOption('--out <file>', 'the report, one HTML file')
    .option(
      '--design <number>',
      'design to show first, from 1 (without it: the largest within the allowed peak)',
      designNumber('--design'),
    )
    .option(
      '--pictures <folder>',
      'write front.svg, outlines.svg and joint.svg there as well; made where there is none',
    )
    .option(
      '--around <numbers>',
      'further designs around which the mesh solves the stress, some seconds each: 12,40',
      (text: string) => text.split(',').map(designNumber('--around')),
    )
    .option(
      '--fast',
      'without what the independent mesh takes some seconds for: the stress around the channel, cracks between plies',
    )
    .option('--force', 'replace existing files, and go on with a result of another brief')
    .action(async (file: string | undefined, options: ReportOptions) => {
      const output = createOutput(options, streams);
      const asked = await loadBrief(file);
      const briefText =
        file === undefined ? starterBrief : readTextFile(file, { what: 'a brief', limit: briefSizeLimit });
      const whole = await readResultFile(options.channel);
      refuseOtherBrief(options.channel, whole.brief, asked, options, output);
      const { brief, result: found, design, around, told, choice } = ofOneChoice(asked, whole, options);
      const workplace = openWorkplace(1, output.note);
      const task = workplace.prepare(brief);
      const prepare = (other: ResolvedBrief) => (other === brief ? task : workplace.prepare(other));
      const judge = prepareEvaluator(brief, { ...workplace, prepare });
      // Another choice has a reference of its own.
      const result = told === undefined ? found : { ...found, reference: referenceDesign(brief, judge) };
      const shown = reportRequest({ result, path: options.channel, brief, briefText }, judge, {
        fields: options.fast !== true,
        ...(design === undefined ? {} : { design }),
        ...(around === undefined ? {} : { around }),
      });
      const table = choicesTable(whole);
      const answered = {
        ...shown,
        ...(told === undefined ? {} : { answer: [...(shown.answer ?? []), told] }),
        ...(choice && table && { choices: { table, lines: choiceLines(whole, choice) } }),
      };
      const areSeveral = brief.channel.group !== undefined;
      const follows = hostOf(brief.joint).follows !== undefined;
      const script = areSeveral || follows ? undefined : liveScript();
      if (follows) output.note('note: outlines whose pockets follow them cannot be changed in the page');
      else if (areSeveral) output.note('note: outlines of several channels cannot be changed in the page');
      else if (script === undefined)
        output.note('note: this build has no live.js; outlines in the page cannot be changed');
      const outlines = shown.designs.map((one, i) =>
        outlineOf(result.designs[numberOf(one, i) - 1]!, wholeRoom(brief)),
      );
      const request =
        script === undefined ? answered : { ...answered, live: { script, data: liveData(task, outlines) } };
      const page = await lightPage(request);
      const texts = new Map([[options.out, page.text]]);
      if (options.pictures !== undefined) {
        makeFolder(options.pictures);
        for (const [name, picture] of await picturesOf(request)) texts.set(join(options.pictures, name), picture);
      }
      for (const [path, text] of texts) writeTextFile(path, text, { force: options.force === true });
      const files = [...texts.keys()];
      output.result({ files, designs: page.shown.designs.length }, () =>
        files.map((path) => `wrote ${path}`).join('\n'),
      );
    });
}

/** The solver that the page holds, as `npm run build` bundles it, whether this file runs from `src` or from `dist`. */
function liveScript(): string | undefined {
  const file = new URL('../../dist/live.js', import.meta.url);
  return existsSync(file) ? readFileSync(file, 'utf8') : undefined;
}

async function picturesOf(request: ReportRequest) {
  const { title, shape, designs, reference, allow, axes, picked = 0 } = request;
  const design = designs[picked];
  const pictures = new Map<string, string>();
  pictures.set(
    'front.svg',
    await frontPicture({
      title,
      designs,
      ...(reference === undefined ? {} : { reference }),
      ...(allow === undefined ? {} : { allow }),
      ...(axes === undefined ? {} : { axes }),
      ...(design === undefined ? {} : { picked: design }),
    }),
  );
  pictures.set('outlines.svg', await contactSheet({ title, designs, ...(shape === undefined ? {} : { shape }) }));
  const joint = pickedJoint(request);
  if (joint !== undefined)
    pictures.set('joint.svg', await jointPicture({ ...joint, title: `${title}: ${joint.title}` }));
  return pictures;
}
