/**
 * The text of a brief with its layups in the notation of the trade (`parseLayup`) in quotes: YAML takes `[45/0]s` for a list with something behind it, and `[45/0]` for a list of
 * one text.
 */
export function quoteLayups(text: string): string {
  return text.replace(
    /(\blayup:[ \t]*)(\[[^[\]{}"'\n#]*\/[^[\]{}"'\n#]*\](?:_?\{?\d+\}?)?(?:_?[sStT])?)(?=[\s,}]|$)/gm,
    '$1"$2"',
  );
}
