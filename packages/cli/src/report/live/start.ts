/// <reference lib="dom" />
import { readPage } from '../client/read-page.js';
import { unpackBytes } from '../client/unpack-bytes.js';
import { openEngine } from './engine.js';
import type { LiveData } from './live-data.js';
import { livePanel } from './panel.js';

// The page holds this file as one script, deflated, bundled by `scripts/bundle-live.js`.
const text = (id: string) => document.getElementById(id)!.textContent!;
async function begin(): Promise<void> {
  const [data, model, live] = await Promise.all([
    readPage(text('report-data'), unpackBytes),
    unpackBytes(text('live-model')),
    unpackBytes(text('live-data')).then(
      (json) => JSON.parse(new TextDecoder().decode(json)) as Omit<LiveData, 'model'>,
    ),
  ]);
  const show = livePanel(document.getElementById('live')!, data, openEngine({ ...live, model }, data.designs));
  document.addEventListener('design', (event) => show((event as CustomEvent<number>).detail));
  // The reader may have chosen another design meanwhile.
  show(Number(document.documentElement.dataset.shown ?? data.picked));
}

void begin();
