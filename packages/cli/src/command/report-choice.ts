import {
  type ChoiceValues,
  choiceText,
  type DesignDocument,
  findChoice,
  InputError,
  type ResolvedBrief,
} from '@lumenfront/core';
import { preferredDesign } from '../show/index.js';
import { chosenBrief } from './chosen-brief.js';
import type { ResultFile } from './result-file.js';

/** What a report is asked to show, by numbers of the whole result. */
export interface ShownDesigns {
  readonly channel: string;
  readonly design?: number;
  readonly around?: readonly number[];
}

/** A result of one section, and what is shown of it, by its own numbers. */
export interface OneSection extends Pick<ShownDesigns, 'design' | 'around'> {
  readonly brief: ResolvedBrief;
  readonly result: ResultFile;
  /** Whose designs these are, and what of the whole that is, in a sentence; none where the brief leaves nothing open. */
  readonly choice?: ChoiceValues;
  readonly told?: string;
}

/**
 * A report shows one section: of a result over what a brief leaves open, the designs of one choice, that of the design asked for, else of the
 * one that is told first.
 *
 * @throws InputError for a design that the result does not have, or of another choice
 */
export function ofOneChoice(brief: ResolvedBrief, result: ResultFile, shown: ShownDesigns): OneSection {
  const { channel, design, around } = shown;
  const { designs, search } = result;
  const picked = design === undefined ? preferredDesign(designs, brief.allow, search.objective) : design - 1;
  const choice = designs[picked]?.choice;
  // A design that is not there is refused where all are.
  if (brief.choices === undefined || (design !== undefined && designs[picked] === undefined))
    return { ...given({ design, around }), brief, result };
  const own = choice && findChoice(brief, choice);
  const one = chosenBrief(brief, choice, channel);
  const has = (other: DesignDocument) => other.choice !== undefined && findChoice(brief, other.choice) === own;
  const places = designs.flatMap((other, i) => (has(other) ? [i] : []));
  const within = (number: number) => {
    const place = places.indexOf(number - 1);
    if (place >= 0) return place + 1;
    throw new InputError({
      path: '--around',
      expected: `designs of the same choice, ${choiceText(choice!)}: ${places.map((i) => i + 1).join(', ')}`,
      received: String(number),
      remedy: 'leave it out, or make a report of its own for it (--design)',
    });
  };
  return {
    ...given({ design: within(picked + 1), around: around?.map(within) }),
    brief: one,
    ...(choice === undefined ? {} : { choice }),
    result: {
      ...result,
      designs: designs.filter(has),
      families: Object.fromEntries(
        Object.entries(result.families).map(([name, members]) => [name, members.filter(has)]),
      ),
    },
    told: `This report shows ${choiceText(choice!)}, one of ${brief.choices.length} choices, with ${places.length} of the ${designs.length} designs of the front (${rangesOf(places.map((i) => i + 1))}), numbered from 1 here; --design shows that of another one.`,
  };
}

function given({
  design,
  around,
}: {
  readonly design: number | undefined;
  readonly around: readonly number[] | undefined;
}) {
  return { ...(design === undefined ? {} : { design }), ...(around === undefined ? {} : { around }) };
}

/** Whole numbers by growing size: `1 to 3, 7`. */
function rangesOf(numbers: readonly number[]): string {
  const starts = numbers.filter((n, i) => n - 1 !== numbers[i - 1]);
  const ends = numbers.filter((n, i) => n + 1 !== numbers[i + 1]);
  return starts.map((start, k) => (start === ends[k] ? `${start}` : `${start} to ${ends[k]}`)).join(', ');
}
