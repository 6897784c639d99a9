import { vi } from "vitest";

/** From now on the device has no space to store anything more; undone by `vi.unstubAllGlobals`. */
export function fillDevice(): void {
  vi.stubGlobal(
    "localStorage",
    new Proxy(localStorage, {
      get(storage, key) {
        if (key === "setItem") {
          return () => {
            throw new DOMException("full", "QuotaExceededError");
          };
        }
        const value: unknown = Reflect.get(storage, key);
        return typeof value === "function" ? (value.bind(storage) as unknown) : value;
      },
    }),
  );
}
