// Asks a device of the workshop for the access code that the server shows.

import { useEffect, useId, useState } from "preact/hooks";
import { ask, Refusal } from "./api/client";
import { withLanguage, words } from "./words";

export function EnterPage() {
  const id = useId();
  const [code, setCode] = useState(new URLSearchParams(location.search).get("code") ?? "");
  const [trouble, setTrouble] = useState("");
  useEffect(() => {
    document.title = `${words.enter.heading} · ${words.title}`;
  }, []);
  const enter = async (event: SubmitEvent) => {
    event.preventDefault();
    try {
      await ask("enter", { method: "POST", body: { code: code.trim() } });
      location.replace(withLanguage(location.pathname));
    } catch (error) {
      setTrouble(error instanceof Refusal ? `${error.message} ${error.remedy}` : words.noServer);
    }
  };
  return (
    <main class="plain-page">
      <h1>{words.enter.heading}</h1>
      <p>{words.enter.lead}</p>
      <form class="new-job" onSubmit={(event) => void enter(event)}>
        <div class="field">
          <label for={id}>{words.enter.code}</label>
          <input id={id} inputMode="numeric" autocomplete="one-time-code" required value={code} onInput={(event) => setCode(event.currentTarget.value)} />
        </div>
        {trouble && (
          <p class="fault" role="alert">
            {trouble}
          </p>
        )}
        <button type="submit" class="main">
          {words.enter.go}
        </button>
      </form>
    </main>
  );
}
