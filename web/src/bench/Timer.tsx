// The timer of a step: start, pause, and restart after confirmation.

import { useEffect, useState } from "preact/hooks";
import { words } from "../words";
import { clock, leftOf, setWait, waits } from "./waits";

const { bench } = words;

export function Timer({ step, wait_s }: { step: string; wait_s: number }) {
  const whole = wait_s * 1000;
  const wait = waits.value[step] ?? { ends: null, left: whole };
  const left = leftOf(wait);
  const isOver = left === 0;
  const isRunning = wait.ends !== null && !isOver;
  const [isAsking, setAsking] = useState(false);
  // Once the step is opened, the other steps need not show that its wait is over.
  useEffect(() => {
    if (isOver) setWait(step, { ends: null, left: 0 });
  }, [isOver, step]);
  const run = (ms: number) => {
    setWait(step, { ends: Date.now() + ms, left: ms });
    setAsking(false);
  };
  return (
    <section class="timer" aria-label={bench.wait}>
      <output class={isOver ? "over" : ""} role="timer" aria-live={isOver ? "assertive" : "off"}>
        {isOver ? `✓ ${bench.over}` : clock(left)}
      </output>
      {isAsking ? (
        <>
          <span>{bench.askAgain}</span>
          <button type="button" onClick={() => setAsking(false)}>
            {bench.leaveIt}
          </button>
          <button type="button" onClick={() => run(whole)}>
            {bench.yesAgain}
          </button>
        </>
      ) : (
        <>
          {!isOver && (
            <button type="button" onClick={() => (isRunning ? setWait(step, { ends: null, left }) : run(left))}>
              {isRunning ? bench.pause : bench.start}
            </button>
          )}
          {(isRunning || left < whole) && (
            // A restart before the end needs a confirmation.
            <button type="button" onClick={() => (isOver ? run(whole) : setAsking(true))}>
              {bench.again}
            </button>
          )}
        </>
      )}
    </section>
  );
}
