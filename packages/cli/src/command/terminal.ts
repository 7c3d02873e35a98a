import { wantsColour } from '../show/index.js';

/** What a text for people may use. */
export interface Terminal {
  /** Columns. */
  readonly width: number;
  readonly colour: boolean;
}

/** Of a stream; one that is no terminal gets what fits most of them. */
export function terminalOf(stream: NodeJS.WritableStream): Terminal {
  const { columns = 100, isTTY = false } = stream as { readonly columns?: number; readonly isTTY?: boolean };
  return { width: columns, colour: wantsColour({ isTTY }, process.env) };
}
