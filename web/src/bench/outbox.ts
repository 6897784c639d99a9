// Ticks and notes of a build: stored on this device first, sent when the server is reached. Each has an
// id of its own, so that sending it twice changes nothing, and while it waits its own key in the storage,
// so that two tabs of a browser never overwrite each other.

import { computed, signal } from "@preact/signals";
import { jobPath, Refusal, windowId } from "../api/client";
import type { Entry } from "../api/types";
import { askServer, isVisible, poll, type Poll } from "./connection";
import { load, store } from "./store";

/** Entries sent in one request: as many as the server takes where all are of the longest. */
const BATCH = 200;

/** What the server has, as it said last. */
const sent = signal<Entry[]>([]);
export const waiting = signal<Entry[]>([]);
/** Why the server does not take what waits; null where it does, or is not reached. */
export const refused = signal<Refusal | null>(null);
/** Entries that this device has no space to store: they are lost with the page unless they are sent first. */
export const unstored = signal<Entry[]>([]);

const entries = computed(() => {
  const known = new Set<string>();
  return [...sent.value, ...waiting.value].filter((one) => !known.has(one.client_id) && known.add(one.client_id));
});
/** Every entry that is not a tick. */
export const notes = computed(() => entries.value.filter(({ kind }) => kind !== "tick" && kind !== "untick"));

let job = "";
let polling: Poll | undefined;
let lastMade_ms = 0;

/** Opens the stored entries of a job; returns a function that closes them. */
export function openOutbox(name: string): () => void {
  job = name;
  readStored();
  addEventListener("storage", readStored);
  polling = poll(synchronise);
  return () => {
    removeEventListener("storage", readStored);
    polling?.stop();
  };
}

/** Adds an entry; it is stored on this device before anything is sent, where there is space. */
export function add(step: string, kind: Entry["kind"], value: string): void {
  // Later than every known entry, whatever the clocks of other devices say.
  const known_ms = entries.value.map(({ made_s }) => made_s * 1000);
  lastMade_ms = Math.ceil(Math.max(Date.now(), lastMade_ms + 1, ...known_ms.map((made) => made + 1)));
  const entry: Entry = { client_id: `${windowId}-${lastMade_ms}`, step, kind, value, made_s: lastMade_ms / 1000 };
  if (!store(waitingKey(entry), entry)) unstored.value = [...unstored.value, entry];
  readStored();
  polling?.now();
}

/** `before`: it was ticked before the step changed, so that the tick does not count. */
export type Ticked = "yes" | "no" | "before";

/** Whether a step is ticked as it is now. A tick carries the hash of the step that it was made for. */
export function ticked(step: string, content: string | undefined): Ticked {
  const own = entries.value.filter((one) => one.step === step && (one.kind === "tick" || one.kind === "untick"));
  // By the time it was made: what waited on a device arrives late.
  const last = own.reduce<Entry | undefined>((last, one) => (last && last.made_s > one.made_s ? last : one), undefined);
  if (last?.kind !== "tick") return "no";
  return last.value === content ? "yes" : "before";
}

async function synchronise(): Promise<void> {
  if (!isVisible() && waiting.value.length === 0) return;
  try {
    const all = waiting.value;
    const refusals: (Refusal | null)[] = [];
    for (let from = 0; from < all.length; from += BATCH) refusals.push(await send(all.slice(from, from + BATCH)));
    const { entries: theirs } = await askServer<{ entries: Entry[] }>(jobPath(job, "build"));
    storeSent(theirs);
    refused.value = refusals.find((one) => one !== null) ?? null;
  } catch (error) {
    refused.value = error instanceof Refusal ? error : null;
  }
}

/** Sends entries; where they are refused together, by halves, so that one bad entry holds up no other. */
async function send(batch: Entry[]): Promise<Refusal | null> {
  try {
    const { acknowledged } = await askServer<{ acknowledged: string[] }>(jobPath(job, "build/entries"), { method: "POST", body: batch });
    const known = new Set(acknowledged);
    const taken = batch.filter((one) => known.has(one.client_id));
    storeSent([...sent.value, ...taken]);
    taken.forEach((one) => localStorage.removeItem(waitingKey(one)));
    unstored.value = unstored.value.filter((one) => !known.has(one.client_id));
    readStored();
    return null;
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    if (![413, 422].includes(error.status) || batch.length === 1) return error;
    const middle = Math.ceil(batch.length / 2);
    const first = await send(batch.slice(0, middle));
    const second = await send(batch.slice(middle));
    return first ?? second;
  }
}

function storeSent(theirs: Entry[]): void {
  sent.value = theirs;
  // Without the network, none is better than an older state.
  if (!store(sentKey(), theirs)) localStorage.removeItem(sentKey());
  readStored();
}

/** What is stored on this device, by this tab or another. */
function readStored(): void {
  const keys = Object.keys(localStorage).filter((key) => key.startsWith(`brimful.waiting/${job}/`));
  const stored = keys.map((key) => load<Entry>(key));
  waiting.value = [...stored.filter((one) => one !== null), ...unstored.value].sort((a, b) => a.made_s - b.made_s);
  const theirs = load<Entry[]>(sentKey());
  if (theirs !== null) sent.value = theirs;
}

function waitingKey(entry: Entry): string {
  return `brimful.waiting/${job}/${entry.client_id}`;
}

function sentKey(): string {
  return `brimful.sent/${job}`;
}
