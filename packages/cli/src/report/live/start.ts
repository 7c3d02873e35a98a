/// <reference lib="dom" />
import { readPage } from '../client/read-page.js';
import { type LiveData, openEngine } from './engine.js';
import { livePanel } from './panel.js';

// The page holds this file as one script, bundled by `scripts/bundle-live.js`.
const text = (id: string) => document.getElementById(id)!.textContent!;
const data = readPage(text('report-data'));
const live = JSON.parse(text('live-data')) as LiveData;
const begin = livePanel(document.getElementById('live')!, data, openEngine(live, data.designs));
document.addEventListener('design', (event) => begin((event as CustomEvent<number>).detail));
begin(data.picked);
