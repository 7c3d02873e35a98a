const REFERENCES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text as it may stand in HTML and XML, between tags and inside quoted attributes; characters XML forbids are dropped. */
export function escapeMarkup(text: string): string {
  return [...text]
    .filter((character) => character >= ' ' || character === '\n' || character === '\t')
    .join('')
    .replace(/[&<>"']/g, (character) => REFERENCES[character]!);
}
