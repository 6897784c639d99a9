// One value of the job file: labelled, kept as typed, its fault explained beneath.

import { useId, useRef, useState } from "preact/hooks";
import type { Fault } from "../api/types";
import { about, answer, change, plan, written } from "../state/job";
import { at, plain } from "../state/path";
import { toShow, toWrite, unit, type Kind } from "../state/typed";
import { words } from "../words/en";

export interface FieldProps {
  /** The key in the file, counted from 1. */
  path: string;
  label: string;
  kind?: Kind;
  /** Where the figure lies in the job that was read, in SI. */
  si?: string;
  hint?: string;
  /** Words to choose from, where the server's own list for this key does not do. */
  choices?: readonly string[];
}

export function Field({ path, label, kind = "text", si, hint, choices }: FieldProps) {
  const id = useId();
  const value = written(path);
  const shown = toShow(value, kind, si && at(answer.value?.job, si));
  const faults = (answer.value?.faults ?? []).filter((fault) => belongs(fault, path));
  const words_ = choices ?? about.value?.choices[plain(path)];
  const save = (typed: string) => {
    if (typed === shown) return Promise.resolve();
    const set = toWrite(typed, kind);
    return change(set === null ? { path, remove: true } : { path, set });
  };
  const notes = [hint && `${id}-hint`, faults.length > 0 && `${id}-fault`].filter(Boolean).join(" ") || undefined;
  const common = { id, "aria-invalid": faults.length > 0, "aria-describedby": notes };
  return (
    <div class={`field ${kind} ${faults.length > 0 ? "faulty" : ""}`}>
      <label for={id}>{label}</label>
      <span class="entry">
        {words_ && (shown === "" || words_.includes(shown)) ? (
          <select {...common} value={shown} onChange={(event) => void save(event.currentTarget.value)}>
            <option value="">{defaultOf(path) || words.field.none}</option>
            {words_.map((word) => (
              <option key={word}>{word}</option>
            ))}
          </select>
        ) : (
          <Typed common={common} shown={shown} save={save} placeholder={defaultOf(path)} numeric={kind !== "text"} />
        )}
        {unit(kind) && <span class="unit">{unit(kind)}</span>}
      </span>
      {hint && (
        <small id={`${id}-hint`} class="hint">
          {hint}
        </small>
      )}
      {faults.length > 0 && (
        <div id={`${id}-fault`} class="fault">
          {faults.map((fault) => (
            <FaultText key={fault.says} fault={fault} use={(word) => void save(word)} />
          ))}
        </div>
      )}
    </div>
  );
}

/** The text stays as it is being typed; it is saved when the field is left or Enter is pressed. */
function Typed(props: {
  common: { id: string };
  shown: string;
  placeholder: string;
  numeric: boolean;
  save: (typed: string) => Promise<void>;
}) {
  const [draft, setDraft] = useState<string | null>(null);
  const saving = useRef<string | null>(null);
  // What was typed stays in sight until the server has it; what is typed meanwhile is not lost.
  const done = () => {
    if (draft === null || draft === saving.current) return;
    saving.current = draft;
    void props.save(draft).then(() => {
      saving.current = null;
      setDraft((now) => (now === draft ? null : now));
    });
  };
  return (
    <input
      {...props.common}
      type="text"
      inputMode={props.numeric ? "text" : undefined}
      autocomplete="off"
      spellcheck={false}
      value={draft ?? props.shown}
      placeholder={props.placeholder}
      onInput={(event) => setDraft(event.currentTarget.value)}
      onBlur={done}
      onKeyDown={(event) => {
        if (event.key === "Enter") done();
        if (event.key === "Escape") setDraft(null);
      }}
    />
  );
}

/** What is wrong, what is taken, and the nearest right spelling as a button. */
export function FaultText({ fault, use }: { fault: Fault; use?: (word: string) => void }) {
  return (
    <p>
      <strong>{fault.says}</strong> {fault.remedy}
      {fault.allowed.length > 0 && (
        <>
          {" "}
          {words.field.allowed} {fault.allowed.join(", ")}.
        </>
      )}
      {fault.nearest && use && (
        <button type="button" onClick={() => use(fault.nearest!)}>
          {words.field.useNearest(fault.nearest)}
        </button>
      )}
    </p>
  );
}

function belongs(fault: Fault, path: string): boolean {
  return fault.key === path || (fault.key !== null && path.startsWith(`${fault.key}[`) && !path.slice(fault.key.length).includes("."));
}

function defaultOf(path: string): string {
  const found = plan.value?.defaults.find((one) => one.key === path || one.key === plain(path));
  return found ? words.field.default(found.value) : "";
}
