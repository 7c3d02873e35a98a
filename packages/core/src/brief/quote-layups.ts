/**
 * The text of a brief with its layups in the notation of the trade (`parseLayup`) in quotes: YAML takes `[45/0]s` for a list with something behind it, and `[45/0]` for a list of
 * one text. Whatever stands right behind the bracket belongs to it: `parseLayup` tells what is none.
 */
export function quoteLayups(text: string): string {
  const layup = /(\blayup:[ \t]*)(\[[^[\]"'\n#]*\])((?:_?\{\d+\})?[^\s,{}[\]#"']*)(?=[\s,}]|$)/gm;
  return text.replace(layup, (whole, key: string, plies: string, suffix: string) =>
    suffix !== '' || /[/_±₀-₉]/.test(plies) ? `${key}"${plies}${suffix}"` : whole,
  );
}
