/// <reference lib="dom" />
import type { PageData } from '../data.js';
import { type LiveData, openEngine } from './engine.js';
import { livePanel } from './panel.js';

// The page holds this file as one script, bundled by `scripts/bundle-live.js`.
const read = (id: string): unknown => JSON.parse(document.getElementById(id)!.textContent!);
const data = read('report-data') as PageData;
const begin = livePanel(document.getElementById('live')!, data, openEngine(read('live-data') as LiveData));
document.addEventListener('design', (event) => begin((event as CustomEvent<number>).detail));
begin(data.picked);
