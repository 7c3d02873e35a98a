import {
  briefOfChoice,
  type ChoiceValues,
  choiceText,
  findChoice,
  InputError,
  type ResolvedBrief,
} from '@lumenfront/core';

/**
 * The brief that a channel belongs to: of one that leaves something open, that with its choice.
 *
 * @param path of the file that holds the channel
 * @throws InputError where the file does not say the choice, or one that the brief does not have
 */
export function chosenBrief(brief: ResolvedBrief, choice: ChoiceValues | undefined, path: string): ResolvedBrief {
  const { choices } = brief;
  if (choices === undefined) return brief;
  const found = choice && findChoice(brief, choice);
  if (found !== undefined) return briefOfChoice(brief, found);
  const [example] = choices;
  throw new InputError({
    path,
    expected: `a channel with its choice of what the brief leaves open: ${Object.keys(example!.values).join(', ')}`,
    received: choice === undefined ? 'one without' : choiceText(choice),
    remedy: `give a design that front or pick found for this brief, or write beside family and parameters, for example, "choice": ${JSON.stringify(example!.values)}`,
  });
}
