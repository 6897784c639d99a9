// Notes and measured sizes of a step, newest last.

import { useId, useState } from "preact/hooks";
import type { Entry } from "../api/types";
import { words } from "../words/en";
import { add, entries } from "./outbox";

const KINDS = Object.keys(words.bench.kinds) as (keyof typeof words.bench.kinds)[];

export function Notes({ step }: { step: string }) {
  const id = useId();
  const [text, setText] = useState("");
  const [kind, setKind] = useState<Entry["kind"]>("note");
  const keep = (event: SubmitEvent) => {
    event.preventDefault();
    if (text.trim() === "") return;
    add(step, kind, text.trim());
    setText("");
  };
  const own = entries.value.filter((one) => one.step === step && one.kind in words.bench.kinds);
  return (
    <form class="notes" onSubmit={keep}>
      <ul>
        {own.map((one) => (
          <li key={one.client_id}>
            <b>{words.bench.kinds[one.kind as keyof typeof words.bench.kinds]}</b> {one.value}{" "}
            <small>{new Date(one.made_s * 1000).toLocaleTimeString()}</small>
          </li>
        ))}
      </ul>
      <label for={id}>{words.bench.noteHint}</label>
      <textarea id={id} rows={2} value={text} onInput={(event) => setText(event.currentTarget.value)} />
      <div class="row">
        <select aria-label={words.bench.note} value={kind} onChange={(event) => setKind(event.currentTarget.value as Entry["kind"])}>
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
