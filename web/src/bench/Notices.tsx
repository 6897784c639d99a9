// Notices above the steps: that they are out of date, that they were changed, that the tank must not be built
// yet.

import type { Refusal } from "../api/client";
import { Grade } from "../parts/Grade";
import { ServerText } from "../parts/ServerText";
import { withLanguage, words } from "../words";
import { isChanged, refusal, type BenchJob } from "./steps";

const { bench } = words;
/** The server does not know this device, or no longer does after a restart. */
const UNAUTHORISED = 401;

export function Notices({ job }: { job: BenchJob }) {
  return (
    <>
      {refusal.value && (
        <div class="notice" role="alert">
          <p>
            <Grade grade="mend" wordless /> {bench.older(time(job.read_ms))} <ServerText text={refusalText(refusal.value)} />
          </p>
          {refusal.value.status === UNAUTHORISED && (
            // The page asks for the code when it is opened again.
            <a class="button" href={withLanguage(location.pathname)}>
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
      {job.stops === 0 && job.bench.draft && (
        <p class="notice stopped">
          <Grade grade="mend" wordless /> {bench.notChecked}
        </p>
      )}
    </>
  );
}

/** The server's message, with what to do. */
export function refusalText(refusal: Refusal): string {
  const fault = refusal.body.faults?.[0];
  return fault ? `${fault.says} ${fault.remedy}` : `${refusal.message} ${refusal.remedy}`.trim();
}

export function time(ms: number): string {
  return new Date(ms).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
}
