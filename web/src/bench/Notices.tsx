// What has to be known before any step is followed: that the steps are not those of the job as it is, that they
// were changed, that the tank must not be built yet.

import type { Refusal } from "../api/client";
import { Grade } from "../parts/Grade";
import { Said } from "../parts/Said";
import { words } from "../words/en";
import { isChanged, refusal, type BenchJob } from "./steps";

const { bench } = words;
/** The status for whom the server does not know, or not any more since it was started anew. */
const SHUT = 401;

export function Notices({ job }: { job: BenchJob }) {
  return (
    <>
      {refusal.value && (
        <div class="notice" role="alert">
          <p>
            <Grade grade="mend" wordless /> {bench.older(time(job.read_ms))} <Said text={said(refusal.value)} />
          </p>
          {refusal.value.status === SHUT && (
            // The page, opened anew, asks for the code.
            <a class="button" href={location.pathname}>
              {words.enter.go}
            </a>
          )}
        </div>
      )}
      {isChanged.value && (
        <div class="notice" role="alert">
          <p>
            <Grade grade="mend" wordless /> {bench.changed}
          </p>
          <button type="button" onClick={() => (isChanged.value = false)}>
            {bench.seen}
          </button>
        </div>
      )}
      {job.stops > 0 && (
        <p class="notice stopped">
          <Grade grade="stop" wordless /> {bench.stopped(job.stops)}
        </p>
      )}
    </>
  );
}

/** A refusal in the server's own words, with what to do. */
export function said(refusal: Refusal): string {
  const fault = refusal.body.faults?.[0];
  return fault ? `${fault.says} ${fault.remedy}` : `${refusal.message} ${refusal.remedy}`.trim();
}

export function time(ms: number): string {
  return new Date(ms).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
}
