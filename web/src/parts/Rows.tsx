// A list of the job file: its entries with their fields, to remove and to add. A new entry is filled in
// before it goes into the file, so that one undo removes it again.

import { useLayoutEffect, useId, useRef, useState } from "preact/hooks";
import type { Written } from "../api/types";
import { about, answer, change, changeFrom, written } from "../state/job";
import { plain } from "../state/path";
import { toWrite, unit, type Kind } from "../state/typed";
import { optionName, words } from "../words";
import { FaultText, Field } from "./Field";

export interface Column {
  /** The key within the entry: `at[1]`. */
  key: string;
  label: string;
  kind?: Kind;
  si?: string;
  hint?: string;
  choices?: readonly string[];
}

interface RowsProps {
  path: string;
  /** The path of the entries in the parsed job. */
  si: string;
  label: string;
  one: string;
  /** The columns of the entry at a path. */
  columns: (path: string) => readonly Column[];
}

export function Rows({ path, si, label, one, columns }: RowsProps) {
  const entries = written(path);
  const count = Array.isArray(entries) ? entries.length : 0;
  const own = answer.value?.faults.filter((fault) => fault.key === path) ?? [];
  return (
    // A key that is held down acts once, not again where the focus goes.
    <section class="rows" aria-label={label} onKeyDown={(event) => event.repeat && event.key === "Enter" && event.preventDefault()}>
      <h4>{label}</h4>
      {Array.from({ length: count }, (_, index) => (
        <Row key={index} list={path} place={index + 1} si={`${si}[${index + 1}]`} one={`${one} ${index + 1}`} columns={columns(`${path}[${index + 1}]`)} />
      ))}
      {own.map((fault) => (
        <div class="fault" key={fault.says}>
          <FaultText fault={fault} />
        </div>
      ))}
      <NewRow path={path} one={one} columns={columns(`${path}[${count + 1}]`)} />
    </section>
  );
}

/** Removes the entry that was shown: by its turn entries before it may be gone, or the entry itself. */
function removeEntry(list: string, place: number): void {
  const namesNow = () => {
    const entries = written(list);
    return Array.isArray(entries) ? entries.map((entry) => (entry as { name?: unknown } | null)?.name) : [];
  };
  const names = namesNow();
  const name = names[place - 1];
  void changeFrom(() => {
    const now = namesNow();
    const at = now.length === names.length ? place : name === undefined ? 0 : now.indexOf(name) + 1;
    return at === 0 ? [] : [{ path: `${list}[${at}]`, remove: true }];
  });
}

function Row({ list, place, si, one, columns }: { list: string; place: number; si: string; one: string; columns: readonly Column[] }) {
  const path = `${list}[${place}]`;
  const typed = written(`${path}.name`);
  const name = typeof typed === "string" ? typed : one;
  const own = answer.value?.faults.filter((fault) => fault.key === path) ?? [];
  const faulty = answer.value?.faults.some((fault) => fault.key?.startsWith(path)) ?? false;
  return (
    <details open={faulty || undefined} class={faulty ? "faulty" : ""}>
      <summary>{name}</summary>
      <div class="fields">
        {columns.map((column) => (
          <Field {...column} key={column.key} path={`${path}.${column.key}`} si={column.si && `${si}.${column.si}`} />
        ))}
      </div>
      {own.map((fault) => (
        <div class="fault" key={fault.says}>
          <FaultText fault={fault} />
        </div>
      ))}
      <button
        type="button"
        class="quiet"
        onClick={(event) => {
          // The second click of a double click would hit the entry that moves up.
          if (event.detail > 1) return;
          // The button disappears with its entry: the focus stays in the list.
          event.currentTarget.closest("section")?.querySelector<HTMLElement>(":scope > div > .add")?.focus();
          removeEntry(list, place);
        }}
      >
        {words.field.remove(name)}
      </button>
    </details>
  );
}

function NewRow({ path, one, columns }: { path: string; one: string; columns: readonly Column[] }) {
  const [values, setValues] = useState<Record<string, string> | null>(null);
  const self = useRef<HTMLDivElement>(null);
  // The form takes the focus when it opens, and the button when it closes.
  const open = values !== null;
  const touched = useRef(false);
  const isAdding = useRef(false);
  useLayoutEffect(() => {
    if (touched.current) self.current?.querySelector<HTMLElement>("input, select, button")?.focus();
  }, [open]);
  if (!values) {
    return (
      <div ref={self}>
        <button
          type="button"
          class="add"
          onClick={() => {
            touched.current = true;
            setValues({});
          }}
        >
          {words.field.add(one)}
        </button>
      </div>
    );
  }
  // The form stays filled in until the entry is in the file.
  const submit = (event: Event) => {
    event.preventDefault();
    if (isAdding.current || Object.values(values).every((value) => value.trim() === "")) return;
    isAdding.current = true;
    void change({ path, append: entry(columns, values) }).then((isIn) => {
      isAdding.current = false;
      if (isIn) setValues(null);
    });
  };
  return (
    <div ref={self}>
      <form class="new" onSubmit={submit} aria-label={words.field.add(one)}>
        <div class="fields">
          {columns.map((column) => (
            <NewValue
              key={column.key}
              path={`${path}.${column.key}`}
              column={column}
              value={values[column.key] ?? ""}
              set={(value) => setValues((before) => ({ ...before, [column.key]: value }))}
            />
          ))}
        </div>
        <button type="submit" class="main">
          {words.field.putIn}
        </button>
        <button type="button" class="quiet" onClick={() => setValues(null)}>
          {words.field.leave}
        </button>
      </form>
    </div>
  );
}

function NewValue(props: { path: string; column: Column; value: string; set: (value: string) => void }) {
  const id = useId();
  const { label, kind = "text", hint, choices } = props.column;
  const key = plain(props.path);
  const options = choices ?? about.value?.choices[key];
  return (
    <div class={`field ${kind}`}>
      <label for={id}>{label}</label>
      <span class="entry">
        {options ? (
          <select id={id} value={props.value} onChange={(event) => props.set(event.currentTarget.value)}>
            <option value="">{words.field.none}</option>
            {options.map((word) => (
              <option key={word} value={word}>
                {optionName(key, word)}
              </option>
            ))}
          </select>
        ) : (
          <input id={id} type="text" autocomplete="off" value={props.value} onInput={(event) => props.set(event.currentTarget.value)} />
        )}
        {unit(kind) && <span class="unit">{unit(kind)}</span>}
      </span>
      {hint && <small class="hint">{hint}</small>}
    </div>
  );
}

/** The entry as it is written: `at[1]` and `at[2]` become one list; empty values are left out. */
function entry(columns: readonly Column[], values: Record<string, string>): Record<string, Written> {
  const made: Record<string, Written> = {};
  for (const { key, kind = "text" } of columns) {
    const value = toWrite(values[key] ?? "", kind);
    if (value === null) continue;
    const [, name, count] = /^([^[]+)(?:\[(\d+)\])?$/.exec(key)!;
    if (!count) made[name!] = value;
    else ((made[name!] ??= []) as Written[])[Number(count) - 1] = value;
  }
  for (const list of Object.values(made)) {
    if (Array.isArray(list)) for (let index = 0; index < list.length; index++) list[index] ??= "";
  }
  return made;
}
