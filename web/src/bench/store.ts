// What is stored on this device.

/** What is stored under a key; null where nothing is. */
export function load<T>(key: string): T | null {
  return JSON.parse(localStorage.getItem(key) ?? "null") as T | null;
}

/** Stores it; whether there was space. */
export function store(key: string, value: unknown): boolean {
  try {
    localStorage.setItem(key, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}
