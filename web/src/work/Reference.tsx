// Every key of the job file beside its text: the one at the cursor in sight, others found by searching.

import { useEffect, useRef, useState } from "preact/hooks";
import { ask } from "../api/client";
import type { Reference as AllKeys } from "../api/types";
import { words } from "../words";

type Key = AllKeys["sections"][number]["keys"][number];

/** `at` is the key at the cursor, as `space.wall.lean`. */
export function Reference({ at }: { at: string }) {
  const [keys, setKeys] = useState<AllKeys | null>(null);
  const [typed, setTyped] = useState("");
  const list = useRef<HTMLDivElement>(null);
  useEffect(() => {
    ask<AllKeys>("reference").then(setKeys, () => undefined);
  }, []);
  useEffect(() => {
    const here = list.current?.querySelector<HTMLElement>("[open]");
    if (here) list.current!.scrollTop = here.offsetTop - list.current!.offsetTop;
  }, [at, keys]);
  const wanted = typed.trim().toLowerCase();
  const isFound = ({ path, meaning }: Key) => `${path} ${meaning}`.toLowerCase().includes(wanted);
  const sections = (keys?.sections ?? [])
    .map((section) => ({ ...section, keys: section.keys.filter(isFound) }))
    .filter((section) => section.keys.length > 0);
  return (
    <aside class="reference" aria-label={words.text.reference}>
      <label class="field">
        {words.text.search}
        <input type="search" value={typed} onInput={(event) => setTyped(event.currentTarget.value)} />
      </label>
      <div class="keys" ref={list} tabIndex={0} role="region" aria-label={words.text.reference}>
        {keys && sections.length === 0 && <p class="empty">{words.text.noKey}</p>}
        {sections.map((section) => (
          <section key={section.path}>
            <h3>
              <code>{section.heading}</code>
            </h3>
            <p>{section.meaning}</p>
            {section.keys.map((key) => (
              <OneKey key={key.path} of={key} isOpen={key.path === at} />
            ))}
          </section>
        ))}
      </div>
    </aside>
  );
}

function OneKey({ of: { path, meaning, facts }, isOpen }: { of: Key; isOpen: boolean }) {
  return (
    <details open={isOpen}>
      <summary>
        <code>{path.split(".").at(-1)}</code> {meaning}
      </summary>
      <dl>
        {facts.map(({ label, says }, index) => (
          <div key={index}>
            <dt>{label}</dt>
            <dd>{says}</dd>
          </div>
        ))}
      </dl>
    </details>
  );
}
