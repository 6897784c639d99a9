// Long work: asked for, followed through its events, cancelled.

import { words } from "../words/en";
import { ask, jobPath } from "./client";
import type { ErrorBody, Progress } from "./types";

export type { Progress };

/** Work that was cancelled, by a person or by a newer change. */
export class Cancelled extends Error {}

/** Work that the server knows nothing of any more. */
export class Lost extends Error {
  constructor() {
    super(words.lost);
  }
}

/** Asks for `what` of a job and answers its result, said in `units`. Aborting `signal` leaves the work. */
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
  return new Promise((resolve, reject) => {
    const events = new EventSource(`/api/work/${id}/events`);
    const leave = (then: () => void) => {
      events.close();
      signal.removeEventListener("abort", cancel);
      then();
    };
    const cancel = () => {
      void ask(`work/${id}`, { method: "DELETE" }).catch(() => undefined);
      leave(() => reject(new Cancelled()));
    };
    signal.addEventListener("abort", cancel);
    if (signal.aborted) cancel();
    events.addEventListener("progress", (event) => onProgress(JSON.parse(event.data) as Progress));
    events.addEventListener("done", () => leave(resolve));
    events.addEventListener("cancelled", () => leave(() => reject(new Cancelled())));
    events.addEventListener("failed", (event) =>
      leave(() => reject(new Error((JSON.parse(event.data) as ErrorBody).error.says))),
    );
    events.onerror = () => {
      if (events.readyState === EventSource.CLOSED) leave(() => reject(new Lost()));
    };
  });
}
