// What is kept on this device.

/** Keeps it; whether there was room. */
export function store(place: string, what: unknown): boolean {
  try {
    localStorage.setItem(place, JSON.stringify(what));
    return true;
  } catch {
    return false;
  }
}
