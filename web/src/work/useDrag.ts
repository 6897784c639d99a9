// Dragging a part of a drawing, by pointer or by arrow key, until it is released and the server has answered.

import { useEffect, useState } from "preact/hooks";

export type Move = [number, number];

interface Held<T> {
  what: T;
  by: Move;
  /** The pointer that drags it; null for a key. */
  pointer: number | null;
  /** Released, and drawn where it was dropped until the server has answered. */
  isDropped: boolean;
}

/** `drop` makes the change on release; `isSame` tells whether a key continues the drag before it. */
export function useDrag<T>(isSame: (a: T, b: T) => boolean, drop: (what: T, by: Move) => Promise<unknown>) {
  const [held, setHeld] = useState<Held<T> | null>(null);
  const isHeld = held !== null && !held.isDropped;
  const cancel = () => setHeld(null);
  useEffect(() => {
    if (!isHeld) return;
    const onEscape = (event: KeyboardEvent) => event.key === "Escape" && cancel();
    addEventListener("keydown", onEscape);
    return () => removeEventListener("keydown", onEscape);
  }, [isHeld]);
  const release = (pointer: number | null) => {
    if (!held || held.isDropped || held.pointer !== pointer) return;
    const now = { ...held, isDropped: true };
    setHeld(now);
    void drop(held.what, held.by).then(() => setHeld((still) => (still === now ? null : still)));
  };
  return {
    held,
    start: (event: PointerEvent, what: T) => {
      if (event.button !== 0 || isHeld) return;
      event.preventDefault();
      (event.currentTarget as Element).setPointerCapture(event.pointerId);
      setHeld({ what, by: [0, 0], pointer: event.pointerId, isDropped: false });
    },
    move: (event: PointerEvent, by: (what: T) => Move) => {
      if (held && !held.isDropped && held.pointer === event.pointerId) setHeld({ ...held, by: by(held.what) });
    },
    end: (event: PointerEvent) => release(event.pointerId),
    /** One more repeat of a key: all repeats are one change, made on release. */
    nudge: (what: T, [x, y]: Move) =>
      setHeld((now) => {
        if (now && !now.isDropped && now.pointer !== null) return now;
        const from: Move = now && !now.isDropped && isSame(now.what, what) ? now.by : [0, 0];
        return { what, by: [from[0] + x, from[1] + y], pointer: null, isDropped: false };
      }),
    keyUp: () => release(null),
    cancel,
  };
}
