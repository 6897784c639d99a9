// A stage of the job: a heading that can be linked to, then its content.

import type { ComponentChildren } from "preact";
import { words } from "../words";

export type StageId = keyof typeof words.stages;
export const STAGES = Object.keys(words.stages) as StageId[];

export function Stage({ id, children }: { id: StageId; children: ComponentChildren }) {
  const { name, lead } = words.stages[id];
  return (
    <section id={id} class="stage" tabIndex={-1} aria-labelledby={`${id}-name`}>
      <header>
        <h2 id={`${id}-name`}>
          <span class="ordinal" aria-hidden="true">
            {STAGES.indexOf(id) + 1}
          </span>
          {name}
        </h2>
        <p>{lead}</p>
      </header>
      {children}
    </section>
  );
}
