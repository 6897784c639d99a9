// Long-running work: started, followed through its events, cancelled.

import { words } from "../words";
import { ask, jobPath } from "./client";
import type { ErrorBody, Progress } from "./types";

export type { Progress };

/** Work that was cancelled, by a person or by a newer change. */
export class Cancelled extends Error {}

/** Work that the server no longer knows. */
export class Lost extends Error {
  constructor() {
    super(words.lost);
  }
}

/** Starts `what` for a job and returns its result in `units`. Aborting `signal` cancels the work. */
export async function work<T>(
  job: string,
  what: string,
  units: string,
  onProgress: (progress: Progress) => void,
  signal: AbortSignal,
): Promise<T> {
  const { work_id } = await ask<{ work_id: number }>(jobPath(job, "work"), { method: "POST", body: { what, options: { units } } });
  await ended(work_id, onProgress, signal);
  return ask<T>(`work/${work_id}/result`, { signal });
}

function ended(id: number, onProgress: (progress: Progress) => void, signal: AbortSignal): Promise<void> {
  const dataOf = <T>(event: Event) => JSON.parse((event as MessageEvent<string>).data) as T;
  return new Promise((resolve, reject) => {
    const events = new EventSource(`/api/work/${id}/events`);
    const finish = (then: () => void) => {
      events.close();
      signal.removeEventListener("abort", cancel);
      then();
    };
    const cancel = () => {
      void ask(`work/${id}`, { method: "DELETE" }).catch(() => undefined);
      finish(() => reject(new Cancelled()));
    };
    signal.addEventListener("abort", cancel);
    if (signal.aborted) cancel();
    events.addEventListener("progress", (event) => onProgress(dataOf<Progress>(event)));
    events.addEventListener("done", () => finish(resolve));
    events.addEventListener("cancelled", () => finish(() => reject(new Cancelled())));
    events.addEventListener("failed", (event) =>
      finish(() => reject(new Error(dataOf<ErrorBody>(event).error.says))),
    );
    events.onerror = () => {
      if (events.readyState === EventSource.CLOSED) finish(() => reject(new Lost()));
    };
  });
}
