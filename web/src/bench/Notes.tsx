// Notes and readings of a step, newest last. A half-typed note is kept with its step.

import { useId, useState } from "preact/hooks";
import type { Entry } from "../api/types";
import { words } from "../words";
import { add, notes } from "./outbox";
import { load, store } from "./store";

const KINDS = Object.keys(words.bench.kinds) as (keyof typeof words.bench.kinds)[];
/** As many letters as the server accepts in any script: it counts bytes. */
const LONGEST = 2600;

interface Draft {
  text: string;
  kind: Entry["kind"];
}

export function Notes({ job, step }: { job: string; step: string }) {
  const id = useId();
  const place = `brimful.draft/${job}/${step}`;
  const [draft, setDraft] = useState<Draft>(() => load(place) ?? { text: "", kind: "note" });
  const write = (next: Draft) => {
    setDraft(next);
    if (next.text === "") localStorage.removeItem(place);
    else store(place, next);
  };
  const keep = (event: SubmitEvent) => {
    event.preventDefault();
    if (draft.text.trim() === "") return;
    add(step, draft.kind, draft.text.trim());
    write({ ...draft, text: "" });
  };
  return (
    <form class="notes" onSubmit={keep}>
      <NotesOf step={step} />
      <label for={id}>{words.bench.noteHint}</label>
      <textarea id={id} rows={2} maxLength={LONGEST} value={draft.text} onInput={(event) => write({ ...draft, text: event.currentTarget.value })} />
      <div class="row">
        <select
          aria-label={words.bench.note}
          value={draft.kind}
          onChange={(event) => write({ ...draft, kind: event.currentTarget.value as Entry["kind"] })}
        >
          {KINDS.map((one) => (
            <option key={one} value={one}>
              {words.bench.kinds[one]}
            </option>
          ))}
        </select>
        <button type="submit">{words.bench.keep}</button>
      </div>
    </form>
  );
}

/** The notes of a step. */
export function NotesOf({ step }: { step: string }) {
  const own = notes.value.filter((one) => one.step === step);
  return (
    <ul>
      {own.map((one) => (
        <li key={one.client_id}>
          <b>{words.bench.kinds[one.kind as keyof typeof words.bench.kinds]}</b> {one.value}{" "}
          <small>{new Date(one.made_s * 1000).toLocaleTimeString()}</small>
        </li>
      ))}
    </ul>
  );
}
