// Navigation between the stages; the current one is marked.

import { useEffect, useRef, useState } from "preact/hooks";
import { STAGES, type StageId } from "../parts/Stage";
import { goTo } from "../state/selection";
import { words } from "../words";

export function Rail() {
  const here = useStageInSight();
  const self = useRef<HTMLElement>(null);
  // On a narrow screen the row is wider than the screen: scroll the row, not the page.
  useEffect(() => {
    const [rail, link] = [self.current!, self.current!.querySelector<HTMLElement>("[aria-current]")];
    if (link && rail.scrollWidth > rail.clientWidth) rail.scrollLeft = link.offsetLeft - rail.clientWidth / 3;
  }, [here]);
  return (
    <nav class="rail" ref={self} aria-label={words.top.stages}>
      <ol>
        {STAGES.map((id, index) => (
          <li key={id}>
            <a
              href={`#${id}`}
              aria-current={id === here ? "location" : undefined}
              onClick={(event) => {
                event.preventDefault();
                history.replaceState(null, "", `#${id}`);
                goTo(id);
              }}
            >
              <span class="ordinal" aria-hidden="true">
                {index + 1}
              </span>
              {words.stages[id].name}
            </a>
          </li>
        ))}
      </ol>
    </nav>
  );
}

/** The last stage that begins above the upper third of the screen; the last of all at the end of the page. */
function useStageInSight(): StageId {
  const [here, setHere] = useState<StageId>("space");
  useEffect(() => {
    const look = () => {
      const begun = STAGES.filter((id) => (document.getElementById(id)?.getBoundingClientRect().top ?? Infinity) < innerHeight / 3);
      const isAtEnd = scrollY > 0 && innerHeight + scrollY >= document.documentElement.scrollHeight - 2;
      setHere((isAtEnd ? STAGES.at(-1) : begun.at(-1)) ?? "space");
    };
    addEventListener("scroll", look, { passive: true });
    return () => removeEventListener("scroll", look);
  }, []);
  return here;
}
