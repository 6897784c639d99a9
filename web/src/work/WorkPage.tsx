// The work view of one job: a single page in the order of the job.

import { useEffect, useState } from "preact/hooks";
import { answer, conflict, open, plan, redo, saving, textDraft, problem, undo, unsaved } from "../state/job";
import { Refusal } from "../api/client";
import { FaultText } from "../parts/Field";
import { ServerText } from "../parts/ServerText";
import { withLanguage, words } from "../words";
import { ConflictView } from "./ConflictView";
import { CutStage } from "./CutStage";
import { Fits } from "./Fits";
import { Hold } from "./Hold";
import { Findings } from "./Findings";
import { PapersStage } from "./PapersStage";
import { Rail } from "./Rail";
import { Space } from "./Space";
import { Tank } from "./Tank";
import { TextView } from "./TextView";
import { Top } from "./Top";
import { VerdictCard } from "./VerdictCard";
import { Weld } from "./Weld";

export function WorkPage({ name }: { name: string }) {
  const [asText, setAsText] = useState(false);
  const [line, setLine] = useState<number | null>(null);
  const [refused, setRefused] = useState<string | null>(null);
  useEffect(() => {
    open(name).catch((error) => setRefused(error instanceof Refusal ? `${error.message} ${error.remedy}` : words.noServer));
  }, [name]);
  useEffect(() => {
    addEventListener("keydown", onUndoKeys);
    addEventListener("beforeunload", onBeforeUnload);
    return () => {
      removeEventListener("keydown", onUndoKeys);
      removeEventListener("beforeunload", onBeforeUnload);
    };
  }, []);
  const now = answer.value;
  const title = now?.title;
  useEffect(() => {
    if (title !== undefined) document.title = `${title} · ${words.title}`;
  }, [title]);

  if (!now) {
    return (
      <main class="plain-page">
        <a href={withLanguage("/")}>{words.top.back}</a>
        <p role="status">{refused ?? words.wait}</p>
      </main>
    );
  }
  const inText = (at: number | null) => {
    setLine(at);
    setAsText(true);
  };
  const textOnly = asText || now.written === null || (now.faults.length > 0 && plan.value === null);
  return (
    <div class="work">
      <Top asText={textOnly} setAsText={setAsText} />
      <Messages
        withFaults={!textOnly}
        inText={inText}
      />
      {conflict.value && <ConflictView now={conflict.value} />}
      {textOnly ? (
        <main class="alone">
          <TextView line={line} />
        </main>
      ) : (
        <>
          <Rail />
          <main>
            <VerdictCard atLine={inText} />
            <Space />
            <Fits />
            <Tank />
            <Hold />
            <CutStage />
            <Weld />
            <Findings atLine={inText} />
            <PapersStage />
          </main>
        </>
      )}
    </div>
  );
}

/** Ctrl+Z and Ctrl+Shift+Z for the job; in a field they belong to the field. */
function onUndoKeys(event: KeyboardEvent): void {
  const inField = event.target instanceof Element && event.target.matches("input, textarea, select");
  if (inField || !(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z") return;
  event.preventDefault();
  if (event.shiftKey && answer.value?.can_redo) void redo();
  if (!event.shiftKey && answer.value?.can_undo) void undo();
}

/** Asks before leaving with unsaved changes. */
function onBeforeUnload(event: BeforeUnloadEvent): void {
  if (textDraft.value || saving.value > 0 || unsaved.value > 0) event.preventDefault();
}

/** What went wrong, visible wherever the page is scrolled; the text view lists the faults itself. */
function Messages({ withFaults, inText }: { withFaults: boolean; inText: (line: number | null) => void }) {
  const { faults } = answer.value!;
  const first = withFaults ? faults[0] : undefined;
  if (problem.value === null && !first) return null;
  return (
    <div class="messages">
      {problem.value !== null && (
        <p class="problem" role="alert">
          <span>
            <ServerText text={problem.value || words.noServer} />
          </span>
          <button type="button" class="quiet" aria-label={words.top.close} onClick={() => (problem.value = null)}>
            ✕
          </button>
        </p>
      )}
      {first && (
        <div class="problem" role="status">
          <span>
            <FaultText fault={first} />
            {faults.length > 1 && words.top.moreFaults(faults.length - 1)}
          </span>
          <button type="button" class="quiet" onClick={() => inText(first.line)}>
            {words.top.inText}
          </button>
        </div>
      )}
    </div>
  );
}
