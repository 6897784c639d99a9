// What is kept on this device.

/** What is kept at a place; null where nothing is. */
export function load<T>(place: string): T | null {
  return JSON.parse(localStorage.getItem(place) ?? "null") as T | null;
}

/** Keeps it; whether there was room. */
export function store(place: string, what: unknown): boolean {
  try {
    localStorage.setItem(place, JSON.stringify(what));
    return true;
  } catch {
    return false;
  }
}
