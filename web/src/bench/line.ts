// The line to the server: whether it is reached, and asking it again and again.

import { signal } from "@preact/signals";
import { ask, Refusal } from "../api/client";

/** How often the server is asked while the page is seen. */
const BEAT_MS = 5000;
/** The server itself gives a request up by then: no answer will come any more. */
const PATIENCE_MS = 20_000;

/** Whether the last request was answered. Only an answer tells: a network may be there without the server. */
export const reached = signal(true);

/** Asks, and notes whether anybody answered; a refusal is an answer too. */
export async function askServer<T>(path: string, what: { method?: string; body?: unknown } = {}): Promise<T> {
  try {
    const answer = await ask<T>(path, { ...what, signal: AbortSignal.timeout(PATIENCE_MS) });
    reached.value = true;
    return answer;
  } catch (error) {
    reached.value = error instanceof Refusal;
    throw error;
  }
}

export interface Beat {
  /** Does it now, or once more where it is being done. */
  now: () => void;
  stop: () => void;
}

/** Does `act` now and at every beat, when the page is seen or hidden, and when the network comes or goes; never twice at once. */
export function regularly(act: () => Promise<void>): Beat {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let isRunning = false;
  let isWanted = false;
  let isStopped = false;
  const run = async () => {
    isWanted = true;
    if (isRunning) return;
    isRunning = true;
    clearTimeout(timer);
    try {
      while (isWanted && !isStopped) {
        isWanted = false;
        await act();
      }
    } finally {
      isRunning = false;
    }
    if (!isStopped) timer = setTimeout(now, BEAT_MS);
  };
  const now = () => void run();
  addEventListener("online", now);
  addEventListener("offline", now);
  document.addEventListener("visibilitychange", now);
  now();
  return {
    now,
    stop: () => {
      isStopped = true;
      clearTimeout(timer);
      removeEventListener("online", now);
      removeEventListener("offline", now);
      document.removeEventListener("visibilitychange", now);
    },
  };
}

export function isSeen(): boolean {
  return document.visibilityState === "visible";
}
