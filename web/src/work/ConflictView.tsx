// An edit conflict: both versions, and a choice. Until then nothing is written.

import { useEffect, useRef } from "preact/hooks";
import { applyMine, keepTheirs, type Conflict } from "../state/job";
import { words } from "../words";

export function ConflictView({ now }: { now: Conflict }) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  const before = new Set(now.before.split("\n"));
  return (
    <dialog ref={dialog} class="conflict" aria-labelledby="conflict-heading" onCancel={(event) => event.preventDefault()}>
      <h2 id="conflict-heading">{words.conflict.heading}</h2>
      <p>{words.conflict.lead}</p>
      <div class="both">
        <section>
          <h3>{words.conflict.theirs}</h3>
          <Text text={now.theirs.text} before={before} />
        </section>
        <section>
          <h3>{words.conflict.mine}</h3>
          {Array.isArray(now.mine) ? (
            <ul>
              {now.mine.map((edit) => (
                <li key={edit.path}>
                  <code>
                    {edit.path} {"set" in edit ? `= ${JSON.stringify(edit.set)}` : "append" in edit ? `+ ${JSON.stringify(edit.append)}` : "insert" in edit ? `+ ${JSON.stringify(edit.insert)}` : "−"}
                  </code>
                </li>
              ))}
            </ul>
          ) : (
            <Text text={now.mine.text} before={before} />
          )}
        </section>
      </div>
      <div class="row">
        <button type="button" class="main" onClick={() => void keepTheirs()}>
          {words.conflict.take}
        </button>
        <button type="button" onClick={() => void applyMine()}>
          {words.conflict.put}
        </button>
      </div>
    </dialog>
  );
}

/** New lines are marked by a plus and a bar. */
function Text({ text, before }: { text: string; before: ReadonlySet<string> }) {
  return (
    <pre tabIndex={0}>
      {text.split("\n").map((line, index) => (
        <span key={index} class={before.has(line) ? "" : "new-line"}>
          {before.has(line) ? "  " : "+ "}
          {line}
          {"\n"}
        </span>
      ))}
    </pre>
  );
}
