// The job file as text, each fault marked at its line and explained.

import { useEffect, useRef, useState } from "preact/hooks";
import { FaultText } from "../parts/Field";
import { answer, conflict, saveText, textDraft } from "../state/job";
import { words } from "../words";
import { keyAt } from "./keyAt";
import { Reference } from "./Reference";

/** The line height of the text in lists.css, in pixels. */
const LINE_HEIGHT = 22;

export function TextView({ line }: { line: number | null }) {
  const { text, etag, faults, written } = answer.value!;
  const draft = textDraft.value;
  const area = useRef<HTMLTextAreaElement>(null);
  const shown = draft?.text ?? text;
  const [key, setKey] = useState("");
  const lookUp = ({ currentTarget: { value, selectionStart } }: { currentTarget: HTMLTextAreaElement }) => setKey(keyAt(value, selectionStart));
  const marked = new Set(faults.map((fault) => fault.line));

  useEffect(() => {
    if (line !== null) jump(area.current!, line);
  }, [line]);
  const isSaving = useRef(false);
  const save = async () => {
    if (!draft || isSaving.current) return;
    isSaving.current = true;
    const isSaved = await saveText(draft);
    isSaving.current = false;
    if (!isSaved || conflict.value) return;
    // What was typed in between stays as a draft of the saved text.
    const now = textDraft.value;
    textDraft.value = !now || now.text === draft.text ? null : { text: now.text, etag: answer.value!.etag };
  };

  return (
    <section class="text-view" aria-label={words.text.label}>
      <p>{written === null ? words.text.broken : words.text.lead}</p>
      {faults.length > 0 && (
        <ul class="fault-list" aria-label={words.text.open}>
          {faults.map((fault, index) => (
            <li key={index} class="fault">
              {fault.line !== null && (
                <button type="button" onClick={() => jump(area.current!, fault.line!, fault.column ?? 1)}>
                  {words.text.place(fault.line, fault.column ?? 1)}
                </button>
              )}
              <FaultText fault={fault} />
            </li>
          ))}
        </ul>
      )}
      <div class="text-and-keys">
      <div class="lines-of-text" tabIndex={-1}>
        <ol aria-hidden="true">
          {shown.split("\n").map((_, index) => (
            <li key={index} class={marked.has(index + 1) ? "marked" : ""}>
              {marked.has(index + 1) ? "▶ " : ""}
              {index + 1}
            </li>
          ))}
        </ol>
        <textarea
          ref={area}
          aria-label={words.text.label}
          spellcheck={false}
          rows={shown.split("\n").length + 1}
          value={shown}
          onKeyUp={lookUp}
          onClick={lookUp}
          onInput={(event) => {
            const typed = event.currentTarget.value;
            textDraft.value = typed === text ? null : { text: typed, etag: draft?.etag ?? etag };
          }}
        />
      </div>
      <Reference at={key} />
      </div>
      <div class="row">
        <button type="button" class="main" aria-disabled={draft === null} onClick={() => void save()}>
          {words.text.save}
        </button>
        <button type="button" class="quiet" onClick={() => (textDraft.value = null)}>
          {words.text.back}
        </button>
      </div>
    </section>
  );
}

/** Selects a line from a column on, and scrolls to it. */
function jump(area: HTMLTextAreaElement, line: number, column = 1): void {
  const lines = area.value.split("\n");
  const from = lines.slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0);
  area.focus();
  area.setSelectionRange(from + column - 1, from + (lines[line - 1]?.length ?? 0));
  area.closest(".lines-of-text")?.scrollTo({ top: (line - 4) * LINE_HEIGHT });
}
