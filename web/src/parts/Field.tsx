// A form field for one value of the job file: kept as typed, with its faults below.

import { useEffect, useId, useRef, useState } from "preact/hooks";
import type { Edit, Fault } from "../api/types";
import { about, answer, changeFrom, plan, unsaved, written } from "../state/job";
import { at, plain, placeInList } from "../state/path";
import { isWords, toShow, toWrite, unit, type Kind } from "../state/typed";
import { optionName, words } from "../words";
import { ServerText } from "./ServerText";

export interface FieldProps {
  /** The key in the file, counted from 1. */
  path: string;
  label: string;
  kind?: Kind;
  /** The path of the figure in the parsed job, in SI. */
  si?: string;
  hint?: string;
  /** Options that replace the server's list for this key. */
  choices?: readonly string[];
}

export function Field({ path, label, kind = "text", si, hint, choices }: FieldProps) {
  const id = useId();
  const showNow = () => toShow(written(path), kind, si && at(answer.value?.job, si));
  const shown = showNow();
  const faults = (answer.value?.faults ?? []).filter((fault) => belongs(fault, path));
  const options = choices ?? about.value?.choices[plain(path)];
  const save = (typed: string) => {
    // In the unit that was shown while it was typed.
    const set = toWrite(typed, kind);
    // Compared with the file as it is by then: a choice may be reverted before the answer arrives.
    return changeFrom(() => {
      if (typed.trim() === showNow()) return [];
      return [set === null ? emptied(path) : { path, set }];
    });
  };
  const notes = [hint && `${id}-hint`, faults.length > 0 && `${id}-fault`].filter(Boolean).join(" ") || undefined;
  const common = { id, "aria-invalid": faults.length > 0, "aria-describedby": notes };
  return (
    <div class={`field ${kind} ${faults.length > 0 ? "faulty" : ""}`}>
      <label for={id}>{label}</label>
      <span class="entry">
        {options && (shown === "" || options.includes(shown)) ? (
          <select {...common} value={shown} onChange={(event) => void save(event.currentTarget.value)}>
            <option value="">{defaultOf(path) || words.field.none}</option>
            {options.map((word) => (
              <option key={word} value={word}>
                {optionName(plain(path), word)}
              </option>
            ))}
          </select>
        ) : (
          <Typed common={common} shown={shown} save={save} placeholder={defaultOf(path)} numeric={!isWords(kind)} />
        )}
        {unit(kind) && !/[a-z"']$/i.test(shown) && <span class="unit">{unit(kind)}</span>}
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

interface Draft {
  text: string;
  /** What the file held when the draft was started. */
  from: string;
  /** The server was not reached when it was to be saved. */
  isUnsaved: boolean;
}

/** A text field; it is saved on blur or Enter. */
function Typed(props: {
  common: { id: string };
  shown: string;
  placeholder: string;
  numeric: boolean;
  save: (typed: string) => Promise<boolean>;
}) {
  const { shown } = props;
  const [draft, setDraft] = useState<Draft | null>(null);
  const isUnsaved = draft?.isUnsaved ?? false;
  const beingSaved = useRef<string | null>(null);
  // The typed text stays until the server has it; what is typed until then is not lost.
  const done = () => {
    if (draft === null || draft.text === beingSaved.current) return;
    const { text } = draft;
    beingSaved.current = text;
    void props.save(text).then((isSaved) => {
      beingSaved.current = null;
      setDraft((now) => {
        if (!now || !isSaved) return now && { ...now, isUnsaved: true };
        return now.text === text ? null : { text: now.text, from: text, isUnsaved: false };
      });
    });
  };
  useEffect(() => {
    if (!isUnsaved) return;
    unsaved.value += 1;
    return () => void (unsaved.value -= 1);
  }, [isUnsaved]);
  // A draft that the file has come to equal needs no saving.
  useEffect(() => {
    if (beingSaved.current === null) setDraft((now) => (now?.text === shown ? null : now));
  }, [shown]);
  const isOther = draft !== null && draft.from !== shown && beingSaved.current === null;
  return (
    <>
      <input
        {...props.common}
        type="text"
        inputMode={props.numeric ? "text" : undefined}
        autocomplete="off"
        spellcheck={false}
        value={draft?.text ?? shown}
        placeholder={props.placeholder}
        onInput={(event) => {
          const text = event.currentTarget.value;
          setDraft((now) => ({ text, from: now?.from ?? shown, isUnsaved: now?.isUnsaved ?? false }));
        }}
        onBlur={done}
        onKeyDown={(event) => {
          if (event.key === "Enter") done();
          if (event.key === "Escape") setDraft(null);
        }}
      />
      {(isUnsaved || isOther) && (
        <small class="unsaved" role="status">
          {isOther ? words.field.otherMeanwhile(shown) : words.field.unsaved}
        </small>
      )}
    </>
  );
}

/** What is wrong, what is allowed, and the nearest right spelling as a button. */
export function FaultText({ fault, use }: { fault: Fault; use?: (word: string) => void }) {
  return (
    <p>
      <strong>
        <ServerText text={fault.says} />
      </strong>{" "}
      <ServerText text={fault.remedy} />
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

/** An emptied element of a list keeps its place; when all are empty the list is removed. */
function emptied(path: string): Edit {
  const [list, place] = placeInList(path) ?? [];
  const values = list && written(list);
  if (!Array.isArray(values)) return { path, remove: true };
  const isLast = values.every((value, index) => index + 1 === place || value === "");
  return isLast ? { path: list!, remove: true } : { path, set: "" };
}

function belongs(fault: Fault, path: string): boolean {
  return fault.key === path || (fault.key !== null && path.startsWith(`${fault.key}[`) && !path.slice(fault.key.length).includes("."));
}

function defaultOf(path: string): string {
  const found = plan.value?.defaults.find((one) => one.key === path || one.key === plain(path));
  return found ? words.field.default(found.value) : "";
}
