// Ticks and notes of a build: kept on this device first, sent when the server is reached. Each has an
// id of its own, so that sending it twice changes nothing, and while it waits a place of its own in the
// storage, so that two tabs of a browser never overwrite what the other keeps.

import { computed, signal } from "@preact/signals";
import { jobPath, Refusal, windowId } from "../api/client";
import type { Entry } from "../api/types";
import { askServer, isSeen, regularly, type Beat } from "./line";
import { load, store } from "./store";

/** Entries sent at once: of the longest notes as many as the server takes in one request. */
const BATCH = 200;

/** What the server has, as it said last. */
const sent = signal<Entry[]>([]);
export const waiting = signal<Entry[]>([]);
/** Why the server does not take what waits; null where it does, or is not reached. */
export const refused = signal<Refusal | null>(null);
/** Entries that this device has no room for: they are lost with the page unless they are sent before. */
export const unkept = signal<Entry[]>([]);

const entries = computed(() => {
  const known = new Set<string>();
  return [...sent.value, ...waiting.value].filter((one) => !known.has(one.client_id) && known.add(one.client_id));
});
/** All that is no tick. */
export const notes = computed(() => entries.value.filter(({ kind }) => kind !== "tick" && kind !== "untick"));

let job = "";
let beat: Beat | undefined;
let lastMade_ms = 0;

/** Opens what is kept of a job; answers how to close it. */
export function openOutbox(name: string): () => void {
  job = name;
  readKept();
  addEventListener("storage", readKept);
  beat = regularly(exchange);
  return () => {
    removeEventListener("storage", readKept);
    beat?.stop();
  };
}

/** Keeps an entry; it is on this device before anything is sent, where there is room. */
export function add(step: string, kind: Entry["kind"], value: string): void {
  // Later than all that is known, whatever the clocks of other devices say.
  const known_ms = entries.value.map(({ made_s }) => made_s * 1000);
  lastMade_ms = Math.ceil(Math.max(Date.now(), lastMade_ms + 1, ...known_ms.map((made) => made + 1)));
  const entry: Entry = { client_id: `${windowId}-${lastMade_ms}`, step, kind, value, made_s: lastMade_ms / 1000 };
  if (!store(waitingPlace(entry), entry)) unkept.value = [...unkept.value, entry];
  readKept();
  beat?.now();
}

/** `before`: it was ticked when the step was another than it is now, so that the tick does not count. */
export type Ticked = "yes" | "no" | "before";

/** Whether a step is ticked as it is now. A tick carries what the step was when it was made. */
export function ticked(step: string, content: string | undefined): Ticked {
  const own = entries.value.filter((one) => one.step === step && (one.kind === "tick" || one.kind === "untick"));
  // By when it was made: what waited on a device comes late.
  const last = own.reduce<Entry | undefined>((last, one) => (last && last.made_s > one.made_s ? last : one), undefined);
  if (last?.kind !== "tick") return "no";
  return last.value === content ? "yes" : "before";
}

async function exchange(): Promise<void> {
  if (!isSeen() && waiting.value.length === 0) return;
  try {
    const all = waiting.value;
    const refusals: (Refusal | null)[] = [];
    for (let from = 0; from < all.length; from += BATCH) refusals.push(await send(all.slice(from, from + BATCH)));
    const { entries: theirs } = await askServer<{ entries: Entry[] }>(jobPath(job, "build"));
    keepSent(theirs);
    refused.value = refusals.find((one) => one !== null) ?? null;
  } catch (error) {
    refused.value = error instanceof Refusal ? error : null;
  }
}

/** Sends entries; where they are refused together by halves, so that one that cannot be taken holds up no other. */
async function send(batch: Entry[]): Promise<Refusal | null> {
  try {
    const { acknowledged } = await askServer<{ acknowledged: string[] }>(jobPath(job, "build/entries"), { method: "POST", body: batch });
    const known = new Set(acknowledged);
    const taken = batch.filter((one) => known.has(one.client_id));
    keepSent([...sent.value, ...taken]);
    taken.forEach((one) => localStorage.removeItem(waitingPlace(one)));
    unkept.value = unkept.value.filter((one) => !known.has(one.client_id));
    readKept();
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

function keepSent(theirs: Entry[]): void {
  sent.value = theirs;
  // Better none without the network than those of an older state.
  if (!store(sentPlace(), theirs)) localStorage.removeItem(sentPlace());
  readKept();
}

/** What is kept on this device, by this tab or another. */
function readKept(): void {
  const places = Object.keys(localStorage).filter((place) => place.startsWith(`brimful.waiting/${job}/`));
  const kept = places.map((place) => load<Entry>(place));
  waiting.value = [...kept.filter((one) => one !== null), ...unkept.value].sort((a, b) => a.made_s - b.made_s);
  const theirs = load<Entry[]>(sentPlace());
  if (theirs !== null) sent.value = theirs;
}

function waitingPlace(entry: Entry): string {
  return `brimful.waiting/${job}/${entry.client_id}`;
}

function sentPlace(): string {
  return `brimful.sent/${job}`;
}
