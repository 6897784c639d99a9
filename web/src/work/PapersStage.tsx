// The build pack: made on request, downloaded file by file or all together.

import { useEffect, useState } from "preact/hooks";
import { ask, jobPath } from "../api/client";
import type { Papers } from "../api/types";
import { Stage } from "../parts/Stage";
import { bytes } from "../show/figure";
import { answer, runWork, plan, stale } from "../state/job";
import { words } from "../words";

export function PapersStage() {
  const [papers, setPapers] = useState<Papers | null>(null);
  const [making, setMaking] = useState(false);
  const { name, etag } = answer.value!;

  useEffect(() => {
    ask<Papers>(jobPath(name, "papers"))
      .then(setPapers)
      .catch(() => setPapers(null));
  }, [name]);

  const make = async () => {
    setMaking(true);
    const made = await runWork<Papers>(name, "pack");
    if (made !== null && made !== "unsupported") setPapers(made);
    setMaking(false);
  };
  const files = papers?.files ?? [];
  const stops = plan.value?.findings.some((finding) => finding.grade === "stop");
  return (
    <Stage id="papers">
      <div class="row">
        <button type="button" class="main" aria-disabled={making || stale.value} onClick={() => !making && !stale.value && void make()}>
          {making ? words.papers.making : words.papers.make}
        </button>
        {files.length > 0 && !making && (
          <a class="button" href={`/api/${jobPath(name, "papers.zip")}`} download={`${name}.zip`}>
            {words.papers.all}
          </a>
        )}
      </div>
      {stops && <p class="hint">{words.papers.draftNote}</p>}
      {files.length === 0 && !making && <p class="empty">{words.papers.none}</p>}
      {files.length > 0 && papers?.etag !== etag && (
        <p class="warn" role="status">
          {words.papers.old}
        </p>
      )}
      <ul class="papers">
        {files.map((file) => (
          <li key={file.name}>
            <a href={`/api/${jobPath(name, `papers/${file.name.split("/").map(encodeURIComponent).join("/")}`)}`} download={file.name.split("/").at(-1)}>
              {file.name}
            </a>
            <span>{file.what}</span>
            <small>{bytes(file.bytes)}</small>
          </li>
        ))}
      </ul>
    </Stage>
  );
}
