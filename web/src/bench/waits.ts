// Timers at the bench. They go by the clock, so that a dark screen or another step loses nothing.

import { signal } from "@preact/signals";
import { load, store } from "./store";

export interface Wait {
  /** When it will be over, in milliseconds of the clock; null while it is paused, and once somebody has seen that it is over. */
  ends: number | null;
  left: number;
}

const TICK_MS = 500;

/** By the id of the step. */
export const waits = signal<Record<string, Wait>>({});
export const now = signal(Date.now());

let job = "";

/** Opens the waits of a job; returns a function that closes them. */
export function openWaits(name: string): () => void {
  job = name;
  readStored();
  addEventListener("storage", readStored);
  const timer = setInterval(count, TICK_MS);
  return () => {
    removeEventListener("storage", readStored);
    clearInterval(timer);
  };
}

export function setWait(step: string, wait: Wait): void {
  readStored();
  waits.value = { ...waits.value, [step]: wait };
  store(key(), waits.value);
  now.value = Date.now();
}

export function leftOf(wait: Wait): number {
  return wait.ends === null ? wait.left : Math.max(0, wait.ends - now.value);
}

export function clock(ms: number): string {
  const seconds = Math.ceil(ms / 1000);
  const two = (value: number) => String(value).padStart(2, "0");
  const [h, m, s] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
  return h > 0 ? `${h}:${two(m)}:${two(s)}` : `${m}:${two(s)}`;
}

function count(): void {
  const before = now.value;
  const running = Object.values(waits.value).filter(({ ends }) => ends !== null && ends > before);
  if (running.length === 0) return;
  now.value = Date.now();
  if (running.some(({ ends }) => ends! <= now.value)) navigator.vibrate?.([300, 150, 300]);
}

function readStored(): void {
  waits.value = load<Record<string, Wait>>(key()) ?? {};
}

function key(): string {
  return `brimful.waits/${job}`;
}
