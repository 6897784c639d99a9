// The foot of the page: what is stored and sent, the timers that run, and the way from step to step.

import type { BenchStep } from "../api/types";
import { ServerText } from "../parts/ServerText";
import { words } from "../words";
import { reached } from "./connection";
import { refusalText, time } from "./Notices";
import { add, refused, ticked, unstored, waiting } from "./outbox";
import { awake } from "./screen";
import { job as shown, type BenchJob } from "./steps";
import { clock, leftOf, waits } from "./waits";

const { bench } = words;

interface FootProps {
  job: BenchJob;
  at: number;
  isListed: boolean;
  go: (to: number) => void;
}

export function Foot({ job, at, isListed, go }: FootProps) {
  const { steps } = job.bench;
  const step = steps[at];
  return (
    <footer>
      <State />
      <Waits steps={steps} at={isListed ? -1 : at} go={go} />
      <div class="walk">
        <button type="button" aria-disabled={at === 0} onClick={() => go(at - 1)}>
          ◀ {bench.before}
        </button>
        {step && !isListed && <Tick step={step} content={job.contents[step.id] ?? ""} next={() => go(at + 1)} />}
        <button type="button" aria-disabled={at >= steps.length - 1} onClick={() => go(at + 1)}>
          {bench.next} ▶
        </button>
      </div>
    </footer>
  );
}

/** Whether the server is reached, and what has not been sent yet. */
export function State() {
  const count = waiting.value.length;
  return (
    <p role="status">
      {!reached.value && `${bench.offline}${shown.value ? ` ${bench.asOf(time(shown.value.read_ms))}` : ""} `}
      {count === 0 ? bench.sent : refused.value ? <ServerText text={bench.refused(count, refusalText(refused.value))} /> : bench.waiting(count)}
      {unstored.value.length > 0 && ` · ${bench.noRoom}`}
      {` · ${bench.screen[awake.value]}`}
      {!isSecureContext && ` · ${bench.notKept}`}
    </p>
  );
}

/** Timers of the other steps; one that is over stays until somebody opens its step. */
function Waits({ steps, at, go }: { steps: readonly BenchStep[]; at: number; go: (to: number) => void }) {
  return (
    <>
      {steps.map((step, index) => {
        const wait = waits.value[step.id];
        if (index === at || !wait || wait.ends === null) return null;
        const left = leftOf(wait);
        return (
          <div key={step.id} role={left > 0 ? undefined : "alert"}>
            <button type="button" class="waits" onClick={() => go(index)}>
              <span>{step.title}</span> <b>{left > 0 ? bench.left(clock(left)) : `✓ ${bench.over}`}</b>
            </button>
          </div>
        );
      })}
    </>
  );
}

function Tick({ step, content, next }: { step: BenchStep; content: string; next: () => void }) {
  const isDone = ticked(step.id, content) === "yes";
  return (
    <button
      type="button"
      class={isDone ? "tick done" : "tick main"}
      aria-pressed={isDone}
      onClick={() => {
        add(step.id, isDone ? "untick" : "tick", content);
        if (!isDone) next();
      }}
    >
      {isDone ? `✓ ${bench.undone}` : bench.done}
    </button>
  );
}
