// What is held of a drawing, by a hand or by a key that is down, until it is let go and the answer is there.

import { useEffect, useState } from "preact/hooks";

export type Move = [number, number];

interface Held<T> {
  what: T;
  by: Move;
  /** The pointer that holds it; null for a key. */
  pointer: number | null;
  /** Let go, and drawn where it was put until the answer is there. */
  isPut: boolean;
}

/** `put` makes the change once it is let go; `isSame` tells whether a key goes on with what it holds. */
export function useHold<T>(isSame: (a: T, b: T) => boolean, put: (what: T, by: Move) => Promise<unknown>) {
  const [held, setHeld] = useState<Held<T> | null>(null);
  const isHeld = held !== null && !held.isPut;
  const leave = () => setHeld(null);
  useEffect(() => {
    if (!isHeld) return;
    const byEscape = (event: KeyboardEvent) => event.key === "Escape" && leave();
    addEventListener("keydown", byEscape);
    return () => removeEventListener("keydown", byEscape);
  }, [isHeld]);
  const letGo = (pointer: number | null) => {
    if (!held || held.isPut || held.pointer !== pointer) return;
    const now = { ...held, isPut: true };
    setHeld(now);
    void put(held.what, held.by).then(() => setHeld((still) => (still === now ? null : still)));
  };
  return {
    held,
    take: (event: PointerEvent, what: T) => {
      if (event.button !== 0 || isHeld) return;
      event.preventDefault();
      (event.currentTarget as Element).setPointerCapture(event.pointerId);
      setHeld({ what, by: [0, 0], pointer: event.pointerId, isPut: false });
    },
    follow: (event: PointerEvent, by: (what: T) => Move) => {
      if (held && !held.isPut && held.pointer === event.pointerId) setHeld({ ...held, by: by(held.what) });
    },
    drop: (event: PointerEvent) => letGo(event.pointerId),
    /** One more repeat of a key: all of them are one change, made when it is let go. */
    nudge: (what: T, [x, y]: Move) =>
      setHeld((now) => {
        if (now && !now.isPut && now.pointer !== null) return now;
        const from: Move = now && !now.isPut && isSame(now.what, what) ? now.by : [0, 0];
        return { what, by: [from[0] + x, from[1] + y], pointer: null, isPut: false };
      }),
    keyUp: () => letGo(null),
    leave,
  };
}
