// Paths of keys in the job file, with indices from 1: `opening[2].at[1]`.

/** The value at `path` below `root`, or undefined. */
export function at(root: unknown, path: string): unknown {
  let value = root;
  for (const key of path.match(/[^.[\]]+/g) ?? []) {
    if (value === null || typeof value !== "object") return undefined;
    value = /^\d+$/.test(key) && Array.isArray(value) ? value[Number(key) - 1] : (value as Record<string, unknown>)[key];
  }
  return value;
}

/** The path without indices: `opening.at`. */
export function plain(path: string): string {
  return path.replace(/\[\d+\]/g, "");
}

/** The list and index that a path ends with: `opening[2].at` and 1 of `opening[2].at[1]`. */
export function placeInList(path: string): [string, number] | null {
  const [, list, place] = /^(.+)\[(\d+)\]$/.exec(path) ?? [];
  return list ? [list, Number(place)] : null;
}
