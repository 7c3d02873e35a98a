import { homedir } from 'node:os';
import { join } from 'node:path';

/**
 * Where reduced models are kept: `LUMENFRONT_CACHE`, or the place that the platform has for what can be made again.
 * Empty, as an empty `LUMENFRONT_CACHE` gives it: nowhere.
 */
export function cacheFolder(
  environment: Readonly<Record<string, string | undefined>> = process.env,
  platform: NodeJS.Platform = process.platform,
  home: string = homedir(),
): string {
  const { LUMENFRONT_CACHE: chosen, XDG_CACHE_HOME: shared, LOCALAPPDATA: local } = environment;
  if (chosen !== undefined) return chosen;
  if (platform === 'darwin') return join(home, 'Library', 'Caches', 'lumenfront');
  if (platform === 'win32') return join(local || join(home, 'AppData', 'Local'), 'lumenfront', 'cache');
  return join(shared || join(home, '.cache'), 'lumenfront');
}
