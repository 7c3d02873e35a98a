/** Terminal colours by their number in the basic palette. */
export type Colour = 31 | 32 | 33 | 34 | 35 | 36;

/** Whether colours are wanted: on a terminal that can show them, unless `NO_COLOR` is set to anything but nothing. */
export function wantsColour(
  stream: { readonly isTTY?: boolean },
  environment: Readonly<Record<string, string | undefined>>,
): boolean {
  return stream.isTTY === true && !environment.NO_COLOR && environment.TERM !== 'dumb';
}

export const paint = (text: string, colour: Colour): string => `\u001b[${colour}m${text}\u001b[39m`;
