// A finding: its grade, figure and limit, fix and source.

import type { Finding } from "../api/types";
import { quantity } from "../show/figure";
import { words } from "../words";
import { Grade } from "./Grade";
import { ServerText } from "./ServerText";

export function FindingText({ finding }: { finding: Finding }) {
  const { grade, about, says, figure, limit, cure, source } = finding;
  return (
    <>
      <Grade grade={grade} />
      <div>
        <p>
          <strong>{about}</strong> <ServerText text={says} />
          {figure && (
            <span class="figure">
              {quantity(figure)}
              {limit && `, ${words.findings.limit} ${quantity(limit)}`}
            </span>
          )}
        </p>
        {cure && (
          <p class="cure">
            <em>{words.findings.cure}</em> <ServerText text={cure} />
          </p>
        )}
        <details>
          <summary>{words.findings.source}</summary>
          <ServerText text={source} />
        </details>
      </div>
    </>
  );
}
