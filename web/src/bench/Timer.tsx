// A wait at the bench. It counts by the clock, so that a dark screen or another step loses nothing.

import { useEffect, useState } from "preact/hooks";
import { words } from "../words/en";

interface Running {
  /** When it will be over, in milliseconds of the clock; null while paused. */
  ends: number | null;
  left: number;
}

export function Timer({ id, wait_s }: { id: string; wait_s: number }) {
  const place = `brimful.wait.${id}`;
  const whole: Running = { ends: null, left: wait_s * 1000 };
  const [running, setRunning] = useState<Running>(() => JSON.parse(localStorage.getItem(place) ?? "null") ?? whole);
  const [now, setNow] = useState(Date.now());
  const keep = (next: Running) => {
    localStorage.setItem(place, JSON.stringify(next));
    setRunning(next);
    setNow(Date.now());
  };
  useEffect(() => {
    if (running.ends === null) return;
    const tick = setInterval(() => setNow(Date.now()), 500);
    return () => clearInterval(tick);
  }, [running]);

  const left = running.ends === null ? running.left : Math.max(0, running.ends - now);
  const over = left === 0;
  useEffect(() => {
    if (over) navigator.vibrate?.([300, 150, 300]);
  }, [over]);
  return (
    <section class="timer" aria-label={words.bench.wait}>
      <output class={over ? "over" : ""} role="timer" aria-live={over ? "assertive" : "off"}>
        {over ? `✓ ${words.bench.over}` : clock(left)}
      </output>
      {running.ends === null || over ? (
        <button type="button" onClick={() => keep({ ends: Date.now() + (over ? whole.left : left), left: 0 })}>
          {over ? words.bench.again : words.bench.start}
        </button>
      ) : (
        <button type="button" onClick={() => keep({ ends: null, left })}>
          {words.bench.pause}
        </button>
      )}
    </section>
  );
}

function clock(ms: number): string {
  const seconds = Math.ceil(ms / 1000);
  const two = (value: number) => String(value).padStart(2, "0");
  const [h, m, s] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
  return h > 0 ? `${h}:${two(m)}:${two(s)}` : `${m}:${two(s)}`;
}
