// Ticks and notes of a build: kept on this device first, sent when there is a network. Each has an
// id of its own, so that sending it twice changes nothing.

import { computed, signal } from "@preact/signals";
import { ask, jobPath, windowId } from "../api/client";
import type { Entry } from "../api/types";

interface Kept {
  sent: Entry[];
  waiting: Entry[];
}

const NOTHING: Kept = { sent: [], waiting: [] };
const AGAIN_MS = 4000;

export const kept = signal<Kept>(NOTHING);
export const online = signal(true);
export const entries = computed(() => [...kept.value.sent, ...kept.value.waiting]);

let job = "";
let again: ReturnType<typeof setTimeout> | undefined;
let made = 0;

export function openOutbox(name: string): void {
  job = name;
  kept.value = JSON.parse(localStorage.getItem(place()) ?? "null") ?? NOTHING;
  addEventListener("online", () => void send());
  addEventListener("offline", () => (online.value = false));
  void ask<{ entries: Entry[] }>(jobPath(name, "build"))
    .then(({ entries: theirs }) => keep({ ...kept.value, sent: theirs }))
    .catch(() => (online.value = false))
    .then(send);
}

/** Keeps an entry; it is on this device before anything is sent. */
export function add(step: string, kind: Entry["kind"], value = ""): void {
  const entry: Entry = { client_id: `${windowId}-${Date.now()}-${made++}`, step, kind, value, made_s: Date.now() / 1000 };
  keep({ ...kept.value, waiting: [...kept.value.waiting, entry] });
  void send();
}

export function ticked(step: string): boolean {
  return entries.value.filter((one) => one.step === step && (one.kind === "tick" || one.kind === "untick")).at(-1)?.kind === "tick";
}

async function send(): Promise<void> {
  clearTimeout(again);
  const { waiting } = kept.value;
  if (waiting.length === 0) return;
  try {
    const { acknowledged } = await ask<{ acknowledged: string[] }>(jobPath(job, "build/entries"), { method: "POST", body: waiting });
    const known = new Set(acknowledged);
    online.value = true;
    keep({
      sent: [...kept.value.sent, ...waiting.filter((one) => known.has(one.client_id))],
      waiting: kept.value.waiting.filter((one) => !known.has(one.client_id)),
    });
  } catch {
    online.value = false;
  }
  if (kept.value.waiting.length > 0) again = setTimeout(() => void send(), AGAIN_MS);
}

function keep(now: Kept): void {
  const known = new Set<string>();
  const once = (list: Entry[]) => list.filter((one) => !known.has(one.client_id) && known.add(one.client_id));
  kept.value = { sent: once(now.sent), waiting: once(now.waiting) };
  localStorage.setItem(place(), JSON.stringify(kept.value));
}

function place(): string {
  return `brimful.outbox.${job}`;
}
