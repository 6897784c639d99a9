// The connection to the server: whether it is reached, and polling it.

import { signal } from "@preact/signals";
import { ask, Refusal } from "../api/client";

/** How often the server is polled while the page is visible. */
const POLL_MS = 5000;
/** The server itself gives a request up by then: no answer will come any more. */
const TIMEOUT_MS = 20_000;

/** Whether the last request was answered. Only an answer tells: a network may be there without the server. */
export const reached = signal(true);

/** Asks, and notes whether anybody answered; a refusal is an answer too. */
export async function askServer<T>(path: string, what: { method?: string; body?: unknown } = {}): Promise<T> {
  try {
    const answer = await ask<T>(path, { ...what, signal: AbortSignal.timeout(TIMEOUT_MS) });
    reached.value = true;
    return answer;
  } catch (error) {
    reached.value = error instanceof Refusal;
    throw error;
  }
}

export interface Poll {
  /** Does it now, or once more where it is being done. */
  now: () => void;
  stop: () => void;
}

/** Does `act` now and again and again, when the page is shown or hidden, and when the network comes or goes; never twice at once. */
export function poll(act: () => Promise<void>): Poll {
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
    if (!isStopped) timer = setTimeout(now, POLL_MS);
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

export function isVisible(): boolean {
  return document.visibilityState === "visible";
}
