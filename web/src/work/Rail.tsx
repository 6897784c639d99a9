// The way to each stage, with the one that is being looked at marked.

import { useEffect, useState } from "preact/hooks";
import { STAGES, type StageId } from "../parts/Stage";
import { goTo } from "../state/chosen";
import { words } from "../words/en";

export function Rail() {
  const here = useStageInSight();
  return (
    <nav class="rail" aria-label={words.top.stages}>
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

/** The last stage that begins above the middle of the screen. */
function useStageInSight(): StageId {
  const [here, setHere] = useState<StageId>("space");
  useEffect(() => {
    const look = () => {
      const begun = STAGES.filter((id) => (document.getElementById(id)?.getBoundingClientRect().top ?? Infinity) < innerHeight / 2);
      setHere(begun.at(-1) ?? "space");
    };
    addEventListener("scroll", look, { passive: true });
    return () => removeEventListener("scroll", look);
  }, []);
  return here;
}
