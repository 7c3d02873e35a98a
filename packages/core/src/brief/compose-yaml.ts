import { constructFromEvents, EVENT_ID, type Event, getScalarValue, parseEvents, YAMLException } from 'js-yaml';
import type { BriefPath } from '../input/index.js';

/** More aliases than this, those that stand within aliases counted each time, are refused: a few lines can hold a million values. */
const mostAliases = 100;

/** What is wrong with a text, at an offset into it where one place is to blame. */
export interface YamlFault {
  readonly kind: 'key twice' | 'tab' | 'documents' | 'aliases' | 'syntax';
  readonly said: string;
  readonly at?: number;
}

/** Plain data, and where its values stand; or what is wrong. */
export type YamlText =
  | { readonly data: unknown; readonly lineOf: (path: BriefPath) => number | undefined }
  | { readonly faults: readonly YamlFault[] };

/** A value: where it or its key stands, what is in it by key or number, and how many aliases that takes. */
interface Place {
  readonly at: number;
  readonly parts: Map<string, { readonly at: number; readonly value: Place }>;
  aliases: number;
}

class Refused extends Error {
  readonly fault: YamlFault;
  constructor(fault: YamlFault) {
    super(fault.said);
    this.fault = fault;
  }
}

/** Reads one document of YAML 1.2 (JSON is a part of it). */
export function composeYaml(text: string): YamlText {
  const repeated: YamlFault[] = [];
  try {
    const events = parseEvents(text, {});
    if (events.filter(({ type }) => type === EVENT_ID.DOCUMENT).length > 1)
      return { faults: [{ kind: 'documents', said: 'a further document', at: secondDocument(text) }] };
    const root = places(text, events, repeated);
    if (repeated.length > 0) return { faults: repeated };
    const [data] = constructFromEvents(events, { source: text });
    return { data, lineOf: (path) => (root === undefined ? undefined : lineAt(text, offsetOf(root, path))) };
  } catch (error) {
    if (error instanceof Refused) return { faults: [error.fault] };
    if (!(error instanceof YAMLException) || error.mark === undefined) throw error;
    const fault = syntaxFault(text, error.reason, error.mark.position);
    return { faults: [...repeatedBefore(text, fault.at), fault] };
  }
}

/** One-based line of an offset. */
export function lineAt(text: string, offset: number): number {
  return text.slice(0, offset).split('\n').length;
}

/** Where all values stand; `undefined` for a text without any. Keys that stand twice are added to `repeated`. */
function places(text: string, events: readonly Event[], repeated: YamlFault[]): Place | undefined {
  const anchors = new Map<string, Place>();
  // Behind the mark of the document.
  let next = 1;
  if (events.length === 0) return undefined;
  return read(0);

  function read(parent: number): Place {
    const event = events[next++]!;
    if (event.type === EVENT_ID.ALIAS) return followed(text.slice(event.anchorStart, event.anchorEnd));
    if (event.type === EVENT_ID.SCALAR) return anchored(event, leaf(event.valueStart < 0 ? parent : event.valueStart));
    if (event.type === EVENT_ID.SEQUENCE || event.type === EVENT_ID.MAPPING) {
      const place = leaf(event.start);
      for (let i = 0; events[next]!.type !== EVENT_ID.POP; i++) {
        const { key, at } = event.type === EVENT_ID.MAPPING ? keyHere(place.at) : { key: String(i), at: undefined };
        const value = read(at ?? place.at);
        if (place.parts.has(key)) repeated.push({ kind: 'key twice', said: key, at: at! });
        place.parts.set(key, { at: at ?? value.at, value });
        place.aliases += value.aliases;
      }
      next++;
      return anchored(event, place);
    }
    throw new Error('an event within a document that is none of YAML');
  }

  function keyHere(parent: number): { readonly key: string; readonly at: number } {
    const event = events[next++]!;
    if (event.type === EVENT_ID.SCALAR)
      return { key: getScalarValue(text, event), at: event.valueStart < 0 ? parent : event.valueStart };
    const at = 'start' in event ? event.start : parent;
    throw new Refused({ kind: 'syntax', said: 'a key that is a list, a mapping or an alias', at });
  }

  /** Aliases within their own anchor are not found: that is not known before its end. */
  function followed(name: string): Place {
    const place = anchors.get(name);
    if (place === undefined) throw new Refused({ kind: 'aliases', said: `*${name} before its anchor, or without one` });
    const aliases = place.aliases + 1;
    if (aliases > mostAliases) throw new Refused({ kind: 'aliases', said: `${aliases} and more` });
    return { ...place, aliases };
  }

  function anchored(event: { readonly anchorStart: number; readonly anchorEnd: number }, place: Place): Place {
    if (place.aliases > mostAliases) throw new Refused({ kind: 'aliases', said: `${place.aliases} and more` });
    if (event.anchorStart >= 0) anchors.set(text.slice(event.anchorStart, event.anchorEnd), place);
    return place;
  }
}

const leaf = (at: number): Place => ({ at, parts: new Map(), aliases: 0 });

/** Offset of the key of the last step of a path, or of the innermost step that exists. */
function offsetOf(root: Place, path: BriefPath): number {
  let { at } = root;
  let place = root;
  for (const step of path) {
    const part = place.parts.get(String(step));
    if (part === undefined) break;
    at = part.at;
    place = part.value;
  }
  return at;
}

function secondDocument(text: string): number {
  const marks = [...text.matchAll(/^---(?=\s|$)/gm)].map(({ index }) => index);
  const before = text.slice(0, marks[0]).replace(/^\s*(#.*|%.*)?$/gm, '');
  return (before.trim() === '' ? marks[1] : marks[0]) ?? text.length;
}

/** Keys that stand twice in what comes before the line of a mistake. */
function repeatedBefore(text: string, at: number): readonly YamlFault[] {
  const repeated: YamlFault[] = [];
  const sound = text.slice(0, text.lastIndexOf('\n', at - 1) + 1);
  try {
    places(sound, parseEvents(sound, {}), repeated);
  } catch (error) {
    // What comes before the mistake may end in the middle of something: then it tells nothing.
    if (!(error instanceof YAMLException || error instanceof Refused)) throw error;
  }
  return repeated;
}

/** The library's reasons by what a reader sees. */
function syntaxFault(text: string, reason: string, at: number): YamlFault & { readonly at: number } {
  const [here = ''] = text.slice(at);
  const said = (what: string) => ({ kind: 'syntax' as const, said: what, at });
  if (reason.startsWith('tab characters')) return { kind: 'tab', said: reason, at };
  if (reason === 'deficient indentation' || reason.startsWith('unexpected end of the'))
    return said('a quote or bracket that was opened before is not closed, or this is not indented enough');
  if (reason.startsWith('missed comma')) return said('a comma or a closing bracket is missing before this');
  if (reason !== 'bad indentation of a mapping entry') return said(reason);
  if (/[@`%]/.test(here)) return said(`a text that begins with ${here} needs quotes`);
  if (here === ':')
    return said('a second colon: other indentation than before, or a text with a colon that needs quotes');
  if (/[\]}"']$/.test(text.slice(0, at).trimEnd())) return said('something behind a closed bracket or quote');
  return said('indented otherwise than what it belongs to');
}
